import { useState } from 'react';
import { Button, Checkbox } from '@mantine/core';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import type { Act } from '../../store/store.ts';
import { isoWithOffset } from '../manifest/isoWithOffset.ts';
import { countOf } from '../steps/words.ts';
import { acceptSeveral, rulesAmong, severalText } from './acceptSeveral.ts';
import type { OpenFinding } from './acceptSeveral.ts';
import { ReasonAndName, wholeOf } from './ReasonAndName.tsx';
import type { Given } from './ReasonAndName.tsx';

export interface AcceptSeveralDialogProps {
  /** At least one. */
  items: readonly OpenFinding[];
  person: string;
  onAccept: (act: Act) => void;
  onClose: () => void;
}

/** Takes findings of several rows as they are, for one reason; a rule that the reason does not speak of can be left out. */
export function AcceptSeveralDialog({ items, person: known, onAccept, onClose }: AcceptSeveralDialogProps) {
  const [given, setGiven] = useState<Given>({ reason: '', person: known });
  const [left, setLeft] = useState<ReadonlySet<string>>(new Set());
  const [asked, setAsked] = useState(false);
  const rules = rulesAmong(items);
  const taken = items.filter(({ finding }) => !left.has(finding.rule));
  const rejects = taken.filter(({ finding }) => finding.severity === 'reject').length;
  return (
    <Dialog
      title={`Accept findings of ${countOf(new Set(items.map(({ row }) => row.id)).size, 'row')}`}
      onClose={onClose}
    >
      <form
        className="bw-accept"
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          setAsked(true);
          const whole = wholeOf(given);
          if (whole !== null && taken.length > 0)
            onAccept(acceptSeveral(taken, { ...whole, at: isoWithOffset(new Date()) }));
        }}
      >
        <fieldset className="bw-accept-rules">
          <legend>Rules that the reason speaks of</legend>
          {rules.map(({ rule, count }) => (
            <Checkbox
              key={rule}
              label={`${rule}, ${countOf(count, 'finding')}`}
              checked={!left.has(rule)}
              onChange={({ currentTarget: { checked } }) =>
                setLeft(new Set(checked ? [...left].filter((one) => one !== rule) : [...left, rule]))
              }
            />
          ))}
        </fieldset>
        {taken.length === 0 ? (
          <p role="alert">No rule is chosen: there is nothing to accept.</p>
        ) : (
          <p role="status">
            {severalText(taken)}: {rejects} nonconforming, {taken.length - rejects} indeterminate.
          </p>
        )}
        <p className="bw-second">
          No judgement changes. Each finding keeps the acceptance by itself, with this reason and name, in the record
          and in the report; one that comes to say something else is open again. Undo takes all of them back at once.
        </p>
        <ReasonAndName
          given={given}
          onGiven={setGiven}
          description="as the drawing note, the deviation or the waiver that allows all of them"
          asked={asked}
        />
        <div className="bw-form-foot">
          <Button type="submit" variant="filled" disabled={taken.length === 0}>
            Accept {countOf(taken.length, 'finding')}
          </Button>
          <Button onClick={onClose}>Leave them open</Button>
        </div>
      </form>
    </Dialog>
  );
}
