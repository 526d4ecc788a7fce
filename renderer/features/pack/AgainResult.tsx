import { useState } from 'react';
import { Button, TextInput } from '@mantine/core';
import type { Doer } from '../../../shared-types/records/revision.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { extrasOf, secondCountFaults } from '../../engine/packing/index.ts';
import type { PackedBag, PackingFold } from '../../engine/packing/index.ts';
import { wholeNumber } from './dialogs/wholeNumber.ts';

export interface AgainResultProps {
  bag: PackedBag;
  fold: PackingFold;
  by: Doer;
  /** Counts those that differ once more; absent where none does. */
  onAgain: (() => void) | undefined;
  /** Something lies in it that is no line of it; 0: not any more. Gives the reason where it is not kept. */
  onExtra: (item: string, pieces: number) => string | null;
  onLeave: () => void;
}

/** What the second count found, once every line is counted. */
export function AgainResult({ bag, fold, by, onAgain, onExtra, onLeave }: AgainResultProps) {
  const faults = secondCountFaults(fold, bag.id);
  const extras = extrasOf(fold, bag.id);
  const [extra, setExtra] = useState({ item: '', pieces: '1' });
  const [wrong, setWrong] = useState<string | null>(null);
  const add = (): void => {
    const item = extra.item.trim();
    const pieces = wholeNumber(extra.pieces, { least: 1, most: 1_000_000 });
    const known = bag.lines.some(({ line }) => line.item === item);
    const reason =
      item === ''
        ? 'What it is, is missing.'
        : known
          ? `${item} is a line of this bag: count it there.`
          : typeof pieces === 'string'
            ? `${pieces}.`
            : onExtra(item, pieces);
    setWrong(reason);
    if (reason === null) setExtra({ item: '', pieces: '1' });
  };
  return (
    <section className="bw-pack-scroll" aria-label="What the second count found">
      <h2>
        {faults.length === 0 ? (
          <StateMark state="packed" text={`Every line is the same, counted by ${by.name}`} size={24} />
        ) : (
          <StateMark state="count-differs" text="The counts differ" size={24} />
        )}
      </h2>
      {faults.length === 0 ? null : (
        <>
          <ul className="bw-pack-short">
            {faults.map((fault) => (
              <li key={fault}>{fault}</li>
            ))}
          </ul>
          <p>
            Each of them is counted again by the packer, or named missing, and then by another person, before the bag
            can leave.
          </p>
        </>
      )}
      <form
        className="bw-pack-typed"
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          add();
        }}
      >
        <TextInput
          className="bw-field"
          label="Something else lies in it: its code"
          autoComplete="off"
          maxLength={80}
          value={extra.item}
          error={wrong}
          onChange={({ currentTarget: { value } }) => setExtra({ ...extra, item: value })}
        />
        <TextInput
          className="bw-field"
          label="Pieces of it"
          inputMode="numeric"
          autoComplete="off"
          value={extra.pieces}
          onChange={({ currentTarget: { value } }) => setExtra({ ...extra, pieces: value })}
        />
        <Button className="bw-pack-big" type="submit">
          Say what else lies in it
        </Button>
      </form>
      <div className="bw-pack-buttons">
        {extras.map(({ item }) => (
          <Button key={item} className="bw-pack-big" onClick={() => setWrong(onExtra(item, 0))}>
            {item} is taken out
          </Button>
        ))}
        {onAgain === undefined ? null : (
          <Button className="bw-pack-big" onClick={onAgain}>
            Count those that differ again
          </Button>
        )}
        <Button className="bw-pack-big" variant="filled" onClick={onLeave}>
          Back to packing
        </Button>
      </div>
    </section>
  );
}
