import { useState } from 'react';
import { Button, NativeSelect, Textarea, TextInput } from '@mantine/core';
import type { Deed } from '../../../../shared-types/records/revision.ts';
import { Dialog } from '../../../components/Dialog/Dialog.tsx';
import { amountText } from '../../../engine/packing/index.ts';
import type { PackedBag } from '../../../engine/packing/index.ts';
import { wholeNumber } from './wholeNumber.ts';

export interface MissingDialogProps {
  bag: PackedBag;
  /** Code of the line where the hand is. */
  next: string | null;
  gloved: boolean;
  onMissing: (deeds: readonly Deed[], said: string) => void;
  onClose: () => void;
}

/** Names what is not there: which line, how much of it, and why. */
export function MissingDialog({ bag, next, gloved, onMissing, onClose }: MissingDialogProps) {
  const open = bag.lines.filter((line) => line.open.parts > 0);
  const [item, setItem] = useState(next ?? open[0]?.line.item ?? '');
  const [typed, setTyped] = useState<string | null>(null);
  const [reason, setReason] = useState('');
  const [asked, setAsked] = useState(false);
  const line = open.find((one) => one.line.item === item) ?? open[0];
  if (line === undefined || bag.closed !== null)
    return (
      <Dialog title="Missing" onClose={onClose} className={`bw-pack-dialog${gloved ? ' bw-pack-gloved' : ''}`}>
        <p>
          {bag.closed === null
            ? 'Nothing of this bag is open: every line is counted or named.'
            : 'The bag is closed: open it first.'}
        </p>
      </Dialog>
    );
  const byParts = line.open.pieces === 0;
  const most = byParts ? line.open.parts : line.open.pieces;
  const amount = wholeNumber(typed ?? String(most), { least: 1, most });
  const name = (): void => {
    setAsked(true);
    if (typeof amount !== 'number' || reason.trim() === '') return;
    const of = byParts ? { pieces: 0, parts: amount } : { pieces: amount, parts: amount * line.thing.parts };
    onMissing(
      [{ kind: 'missing', bag: bag.id, item: line.line.item, ...of, reason: reason.trim() }],
      `Named missing: ${amountText(of, line.thing.parts)} of ${line.line.item}`,
    );
  };
  return (
    <Dialog title="Missing" onClose={onClose} className={`bw-pack-dialog${gloved ? ' bw-pack-gloved' : ''}`}>
      <form
        className="bw-accept"

        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          name();
        }}
      >
        <NativeSelect
          className="bw-field"
          label="What is not there"
          value={line.line.item}
          data={open.map((one) => ({
            value: one.line.item,
            label: `${one.line.item}, ${one.thing.name}: ${amountText(one.open, one.thing.parts)} to pack`,
          }))}
          onChange={({ currentTarget: { value } }) => {
            setItem(value);
            setTyped(null);
          }}
        />
        <TextInput
          className="bw-field"
          label={byParts ? `Parts missing, of ${most}` : `Pieces missing, of ${most}`}
          inputMode="numeric"
          value={typed ?? String(most)}
          error={asked && typeof amount === 'string' ? amount : undefined}
          onChange={({ currentTarget: { value } }) => setTyped(value)}
        />
        <Textarea
          className="bw-field"
          label="Reason"
          description="as not on its shelf, lent out, broken"
          autosize
          minRows={2}
          maxRows={6}
          maxLength={2000}
          value={reason}
          error={asked && reason.trim() === '' ? 'Reason is missing.' : undefined}
          onChange={({ currentTarget: { value } }) => setReason(value)}
        />
        <div className="bw-form-foot">
          <Button className="bw-pack-big" type="submit" variant="filled">
            Name it missing
          </Button>
          <Button className="bw-pack-big" onClick={onClose}>
            Leave it open
          </Button>
        </div>
      </form>
    </Dialog>
  );
}
