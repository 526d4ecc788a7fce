import { useState } from 'react';
import { Button, Textarea, TextInput } from '@mantine/core';
import { Dialog } from '../../../components/Dialog/Dialog.tsx';
import { amountText } from '../../../engine/packing/index.ts';
import type { PackedBag } from '../../../engine/packing/index.ts';
import type { Desk } from '../packingDesk.ts';

export interface CloseDialogProps {
  desk: Desk;
  bag: PackedBag;
  name: string;
  gloved: boolean;
  onClosed: () => void;
  onClose: () => void;
}

/** A bag that is not whole is closed with a reason and the name of another person, or not at all. */
export function CloseDialog({ desk, bag, name, gloved, onClosed, onClose }: CloseDialogProps) {
  const [reason, setReason] = useState('');
  const [second, setSecond] = useState({ name: '', role: '' });
  const [asked, setAsked] = useState(false);
  const [refused, setRefused] = useState<string | null>(null);
  const whole = { reason: reason.trim(), name: second.name.trim(), role: second.role.trim() };
  const lacks = (text: string, what: string): string | undefined =>
    asked && text === '' ? `${what} is missing.` : undefined;
  const close = (): void => {
    setAsked(true);
    if (whole.reason === '' || whole.name === '' || whole.role === '') return;
    const refusal = desk.act([
      { kind: 'bag-closed', bag: bag.id, reason: whole.reason, second: { name: whole.name, role: whole.role } },
    ]);
    setRefused(refusal);
    if (refusal === null) onClosed();
  };
  return (
    <Dialog
      title={`Close ${name} short`}
      onClose={onClose}
      className={`bw-pack-dialog${gloved ? ' bw-pack-gloved' : ''}`}
    >
      <form
        className="bw-accept"

        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          close();
        }}
      >
        <p>Not whole:</p>
        <ul className="bw-pack-short">
          {bag.lines.flatMap(({ line, thing, open, missing }) =>
            open.parts === 0 && missing.parts === 0
              ? []
              : [
                  <li key={line.item}>
                    <span className="bw-code">{line.item}</span> <bdi>{thing.name}</bdi>:{' '}
                    {[
                      ...(open.parts > 0 ? [`${amountText(open, thing.parts)} to pack`] : []),
                      ...(missing.parts > 0 ? [`${amountText(missing, thing.parts)} missing`] : []),
                    ].join(', ')}
                  </li>,
                ],
          )}
        </ul>
        <Textarea
          className="bw-field"
          label="Reason"
          autosize
          minRows={2}
          maxRows={6}
          maxLength={2000}
          value={reason}
          error={lacks(whole.reason, 'Reason')}
          onChange={({ currentTarget: { value } }) => setReason(value)}
        />
        <TextInput
          className="bw-field"
          label="Second person’s name"
          description="another one than who packed it"
          autoComplete="off"
          maxLength={200}
          value={second.name}
          error={lacks(whole.name, 'Second person’s name') ?? refused ?? undefined}
          onChange={({ currentTarget: { value } }) => setSecond({ ...second, name: value })}
        />
        <TextInput
          className="bw-field"
          label="Second person’s role"
          autoComplete="off"
          maxLength={200}
          value={second.role}
          error={lacks(whole.role, 'Second person’s role')}
          onChange={({ currentTarget: { value } }) => setSecond({ ...second, role: value })}
        />
        <div className="bw-form-foot">
          <Button className="bw-pack-big" type="submit" variant="filled">
            Close bag short
          </Button>
          <Button className="bw-pack-big" onClick={onClose}>
            Leave it open
          </Button>
        </div>
      </form>
    </Dialog>
  );
}
