import { useState } from 'react';
import { Button, TextInput } from '@mantine/core';
import type { DeedOf } from '../../../../shared-types/records/revision.ts';
import { Dialog } from '../../../components/Dialog/Dialog.tsx';
import { amountText } from '../../../engine/packing/index.ts';
import type { Amount, PackedLine } from '../../../engine/packing/index.ts';
import { wholeNumber } from './wholeNumber.ts';

export interface AmountDialogProps {
  line: PackedLine;
  /** The label that was read. */
  label: string | null;
  gloved: boolean;
  onCounted: (deed: DeedOf<'counted'>, said: string) => void;
  onClose: () => void;
}

/** So many choices have a button each; more are typed. */
const buttonsMost = 6;

/** How many pieces, or how many of its parts, are there: asked where one press does not say it. */
export function AmountDialog({ line, label, gloved, onCounted, onClose }: AmountDialogProps) {
  const { thing, open, line: of } = line;
  const byParts = thing.parts > 1;
  const most = byParts ? (open.pieces > 0 ? thing.parts : open.parts) : open.pieces;
  const [typed, setTyped] = useState('');
  const [wrong, setWrong] = useState<string | null>(null);
  const amountOf = (count: number): Amount =>
    byParts ? { pieces: open.pieces > 0 ? 1 : 0, parts: count } : { pieces: count, parts: count };
  const count = (amount: Amount): void =>
    onCounted(
      { kind: 'counted', bag: of.bag, item: of.item, ...amount, ...(label === null ? {} : { label }) },
      `Counted ${amountText(amount, thing.parts)} of ${of.item}`,
    );
  const wordsOf = (each: number): string => {
    if (!byParts) return amountText(amountOf(each), 1);
    if (open.pieces === 0) return each === 1 ? '1 part more' : `${each} parts more`;
    return each === thing.parts ? `All ${each} parts` : each === 1 ? '1 part' : `${each} parts`;
  };
  const counted = line.counted.pieces * thing.parts - line.counted.parts;
  return (
    <Dialog
      title={`${of.item}: how ${byParts ? 'many parts are there' : 'many pieces'}?`}
      onClose={onClose}
      className={`bw-pack-dialog${gloved ? ' bw-pack-gloved' : ''}`}
    >
      <div className="bw-accept">
        <p>
          <b>
            <bdi>{thing.name}</bdi>
          </b>
          {byParts
            ? `: ${thing.parts} parts each. ${line.counted.pieces} of ${of.quantity} counted${counted > 0 ? `, ${counted} parts missing of them` : ''}.`
            : `: ${line.counted.pieces} of ${of.quantity} counted. Its labels do not tell the pieces apart.`}
        </p>
        <div className="bw-pack-buttons">
          {byParts && open.pieces > 1 && label === null ? (
            <Button
              className="bw-pack-big"
              onClick={() => count({ pieces: open.pieces, parts: open.pieces * thing.parts })}
            >
              All {open.pieces} pieces, whole
            </Button>
          ) : null}
          {Array.from({ length: Math.min(most, buttonsMost) }, (_, index) => most - index).map((each) => (
            <Button
              key={each}
              className="bw-pack-big"
              variant={each === most ? 'filled' : 'default'}
              onClick={() => count(amountOf(each))}
            >
              {wordsOf(each)}
            </Button>
          ))}
        </div>
        {most <= buttonsMost ? null : (
          <form
            className="bw-pack-typed"
            noValidate
            onSubmit={(event) => {
              event.preventDefault();
              const value = wholeNumber(typed, { least: 1, most });
              if (typeof value === 'number') count(amountOf(value));
              else setWrong(value);
            }}
          >
            <TextInput
              className="bw-field"
              label={`Fewer, 1 to ${most}`}
              inputMode="numeric"
              value={typed}
              error={wrong}
              onChange={({ currentTarget: { value } }) => setTyped(value)}
            />
            <Button className="bw-pack-big" type="submit">
              Count so many
            </Button>
          </form>
        )}
      </div>
    </Dialog>
  );
}
