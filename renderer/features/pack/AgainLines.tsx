import { Button, TextInput } from '@mantine/core';
import type { Amount, PackedLine } from '../../engine/packing/index.ts';
import type { Tally } from './readAgain.ts';

export interface AgainLinesProps {
  lines: readonly PackedLine[];
  /** Whether the manifest's numbers are shown. */
  showNumbers: boolean;
  tally: Tally;
  onTally: (tally: Tally) => void;
  /** What is counted of a line is kept. */
  onKeep: (item: string) => void;
}

const most = 1_000_000;

/** Lines as a second person counts them: the whole row is one piece more; a number may be typed; each line is kept by itself. */
export function AgainLines({ lines, showNumbers, tally, onTally, onKeep }: AgainLinesProps) {
  return (
    <ul className="bw-pack-list">
      {lines.map(({ line: { item, quantity }, thing }) => {
        const held = tally.get(item);
        const set = (amount: Amount | null): void => {
          const next = new Map(tally);
          if (amount === null) next.delete(item);
          else next.set(item, { amount, labels: held?.labels ?? [] });
          onTally(next);
        };
        const { pieces, parts } = held?.amount ?? { pieces: 0, parts: 0 };
        const typed = (text: string, to: (value: number) => Amount): void => {
          if (text === '') set(null);
          else if (/^\d{1,7}$/.test(text) && Number(text) <= most) set(to(Number(text)));
        };
        return (
          <li key={item} className="bw-pack-line" data-line={item}>
            <div className="bw-pack-rows">
              <button
                type="button"
                className="bw-pack-row"
                data-state={held === undefined ? 'to-pack' : 'packed'}
                onClick={() => set({ pieces: pieces + 1, parts: parts + thing.parts })}
              >
                <span className="bw-pack-thing">
                  <b>
                    <bdi>{thing.name}</bdi>
                  </b>
                  {thing.name === item ? null : <span className="bw-code">{item}</span>}
                </span>
                <span className="bw-pack-count">
                  {held === undefined ? 'not counted' : `${pieces} counted`}
                  {showNumbers ? `, manifest ${quantity}` : ''}
                </span>
              </button>
              <div className="bw-pack-typedline">
                <TextInput
                  label="Pieces"
                  aria-label={`Pieces of ${item}`}
                  inputMode="numeric"
                  autoComplete="off"
                  value={held === undefined ? '' : String(pieces)}
                  onChange={({ currentTarget: { value } }) =>
                    typed(value.trim(), (count) => ({ pieces: count, parts: count * thing.parts }))
                  }
                />
                {thing.parts > 1 ? (
                  <TextInput
                    label={`Parts, ${thing.parts} each`}
                    aria-label={`Parts of ${item}, ${thing.parts} each`}
                    inputMode="numeric"
                    autoComplete="off"
                    value={held === undefined ? '' : String(parts)}
                    onChange={({ currentTarget: { value } }) =>
                      typed(value.trim(), (count) => ({ pieces, parts: count }))
                    }
                  />
                ) : null}
              </div>
              <Button className="bw-pack-all" onClick={() => set({ pieces: 0, parts: 0 })}>
                None<span className="bw-hidden"> of {thing.name}</span>
              </Button>
              <Button
                className="bw-pack-all"
                variant={held === undefined ? 'default' : 'filled'}
                aria-disabled={held === undefined}
                onClick={() => onKeep(item)}
              >
                Keep<span className="bw-hidden"> the count of {item}</span>
              </Button>
            </div>
            <div className="bw-pack-note" />
          </li>
        );
      })}
    </ul>
  );
}
