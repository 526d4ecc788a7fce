import { useState } from 'react';
import { Button, Textarea, TextInput } from '@mantine/core';
import type { Deed, Doer } from '../../../shared-types/records/revision.ts';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import { isSamePerson } from '../../engine/packing/index.ts';
import { amountText } from '../../engine/return/index.ts';
import type { DiscrepancyDraft, ReturnLine } from '../../engine/return/index.ts';
import { spoken } from '../manifest/pageFurniture.ts';
import { countOf } from '../steps/words.ts';

export interface CloseReturnProps {
  by: Doer;
  /** Each gets a discrepancy. */
  drafts: readonly DiscrepancyDraft[];
  /** Lines of which something is open, with and without a discrepancy by now. */
  open: readonly ReturnLine[];
  onDone: (deed: Deed, reason: string | null) => void;
  onClose: () => void;
}

/** Ends a return. With anything open it takes a reason and a second name, and each open line gets a discrepancy. */
export function CloseReturn({ by, drafts, open, onDone, onClose }: CloseReturnProps) {
  const [given, setGiven] = useState({ reason: '', name: '', role: '' });
  const [asked, setAsked] = useState(false);
  const isOpen = open.length > 0;
  const whole = { reason: given.reason.trim(), name: given.name.trim(), role: given.role.trim() };
  const faults = {
    reason: whole.reason === '' ? 'Reason is missing.' : undefined,
    name:
      whole.name === ''
        ? 'Name of the second person is missing.'
        : isSamePerson(whole.name, by.name)
          ? `${whole.name} closes the return: the second name must be of another person.`
          : undefined,
    role: whole.role === '' ? 'Role of the second person is missing.' : undefined,
  };
  const send = (): void => {
    setAsked(true);
    if (!isOpen) return onDone({ kind: 'return-closed' }, null);
    if (Object.values(faults).some((fault) => fault !== undefined)) return;
    const { reason, name, role } = whole;
    onDone({ kind: 'return-closed', reason, second: { name, role } }, reason);
  };
  const partsOf = (draft: DiscrepancyDraft): number =>
    open.find(({ bag, item }) => bag === draft.bag && item === draft.item)?.thing.parts ?? 1;
  return (
    <Dialog title="Close the return" onClose={onClose} className="bw-return-dialog">
      <form
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          send();
        }}
      >
        {isOpen ? (
          <>
            <p>
              {countOf(open.length, 'line')} {open.length === 1 ? 'is' : 'are'} open.{' '}
              {drafts.length === 0
                ? 'Each has its discrepancy already.'
                : `Each of these gets a discrepancy, which only a named person closes:`}
            </p>
            <table className="bw-task-table">
              <thead>
                <tr>
                  <th scope="col">What</th>
                  <th scope="col">How much</th>
                  <th scope="col">Seen last</th>
                </tr>
              </thead>
              <tbody>
                {drafts.map((draft) => (
                  <tr key={`${draft.bag} ${draft.item}`}>
                    <th scope="row">
                      <bdi>{draft.name}</bdi> <span className="bw-code">{draft.item}</span>
                    </th>
                    <td>{amountText(draft, partsOf(draft))}</td>
                    <td>
                      <bdi>{draft.lastSeen.place}</bdi>, {spoken(draft.lastSeen.at ?? '')}, by{' '}
                      <bdi>{draft.seenBy.name}</bdi>
                    </td>
                  </tr>
                ))}
              </tbody>
            </table>
            <Textarea
              className="bw-field"
              label="Reason"
              description="why it is closed with something open, as “swell too high to go back”"
              autosize
              minRows={2}
              maxRows={6}
              maxLength={2000}
              value={given.reason}
              error={asked ? faults.reason : undefined}
              onChange={({ currentTarget }) => setGiven({ ...given, reason: currentTarget.value })}
            />
            <TextInput
              className="bw-field"
              label="Second name"
              description={`another person than ${by.name}, who counted with you`}
              autoComplete="off"
              maxLength={200}
              value={given.name}
              error={asked ? faults.name : undefined}
              onChange={({ currentTarget }) => setGiven({ ...given, name: currentTarget.value })}
            />
            <TextInput
              className="bw-field"
              label="Role of the second person"
              autoComplete="off"
              maxLength={200}
              value={given.role}
              error={asked ? faults.role : undefined}
              onChange={({ currentTarget }) => setGiven({ ...given, role: currentTarget.value })}
            />
          </>
        ) : (
          <p>Every piece and part is accounted for: back, left on purpose, or used.</p>
        )}
        <div className="bw-form-foot">
          <Button type="submit" variant="filled" size="lg">
            {drafts.length === 0
              ? 'Close the return'
              : `Close with ${countOf(drafts.length, 'discrepancy', 'discrepancies')}`}
          </Button>
          <Button size="lg" onClick={onClose}>
            Go on counting
          </Button>
        </div>
      </form>
    </Dialog>
  );
}
