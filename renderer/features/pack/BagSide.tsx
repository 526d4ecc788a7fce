import type { ReactNode } from 'react';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import type { PackedBag, PackState } from '../../engine/packing/index.ts';
import type { Frozen } from '../../engine/frozen/index.ts';
import { placeAddress } from '../../store/place.ts';
import { PackMap } from './PackMap.tsx';
import { bagWords, chunkLabel, chunkWords, lackWords, secondWords } from './packWords.ts';

export interface BagSideProps {
  frozen: Frozen;
  packing: PackState;
  /** The bag at hand. */
  bag: PackedBag;
  /** Index of the lines at hand. */
  chunk: number;
  gloved: boolean;
  next: string | null;
  onChunk: (index: number) => void;
  /** What can be done beside packing. */
  more: ReactNode;
}

/** The bag at hand as it lies, its pockets or stretches of lines, and the other bags of the outing. */
export function BagSide({ frozen, packing, bag, chunk, gloved, next, onChunk, more }: BagSideProps) {
  const size = gloved ? 24 : 16;
  return (
    <section className="bw-pack-side" aria-label="Bags">
      <PackMap frozen={frozen} bag={bag} outing={packing.outing} next={next} />
      {bag.chunks.length < 2 ? null : (
        <ul className="bw-pack-tiles" aria-label={`Parts of ${bagWords(frozen.thing(bag.id))}`}>
          {bag.chunks.map((one, index) => {
            const whole = one.lines.every(({ open }) => open.parts === 0);
            const missing = one.lines.some(({ missing: lost }) => lost.parts > 0);
            const count = one.lines.filter(({ state }) => state === 'packed').length;
            return (
              <li key={chunkLabel(one, bag)}>
                <button
                  type="button"
                  className="bw-pack-tile"
                  aria-current={index === chunk || undefined}
                  onClick={() => onChunk(index)}
                >
                  <StateMark
                    state={missing ? 'missing' : whole ? 'packed' : 'to-pack'}
                    text={missing ? 'Missing' : whole ? 'Packed' : 'To pack'}
                    size={size}
                  />
                  <b aria-hidden="true">{chunkLabel(one, bag)}</b>
                  <span>
                    <span className="bw-hidden">{chunkWords(one, bag)}: </span>
                    {count} of {one.lines.length}
                  </span>
                </button>
              </li>
            );
          })}
        </ul>
      )}
      <ul className="bw-pack-bags" aria-label="Bags of the outing">
        {packing.bags.map(({ id, totals, closed, second }) => (
          <li key={id}>
            <a
              className="bw-pack-bag"
              href={placeAddress({ at: 'pack', outing: packing.outing, bag: id })}
              aria-current={id === bag.id || undefined}
            >
              <b>
                <bdi>{bagWords(frozen.thing(id))}</bdi>
              </b>
              <span>
                {totals.packed} of {totals.pieces} packed{lackWords(totals) === '' ? '' : `, ${lackWords(totals)}`}
              </span>
              <span className="bw-second">
                {closed === null ? 'open' : `closed ${closed.at.slice(11, 16)} by ${closed.by.name}`};{' '}
                {secondWords[second]}
              </span>
            </a>
          </li>
        ))}
      </ul>
      {more}
    </section>
  );
}
