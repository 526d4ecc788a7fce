import { useMemo } from 'react';
import type { Item } from '../../../../shared-types/records/item.ts';
import { StateMark } from '../../../components/StateMark/StateMark.tsx';
import { showNumber } from '../../../engine/units/index.ts';
import { placeAddress } from '../../../store/place.ts';
import { nearSizes } from './nearSizes.ts';
import type { NearFit } from './nearSizes.ts';
import '../../task/task.css';
import './page.css';

const shownMost = 16;

function Verdict({ verdict }: { verdict: NearFit['verdict'] }) {
  if (verdict === 'goes-on') return <StateMark state="reached" text="goes on every good one" />;
  if (verdict === 'slips') return <StateMark state="not-reached" text="the loosest pair slips" />;
  if (verdict === 'not-on') return <StateMark state="not-reached" text="does not go on every good one" />;
  return <span className="bw-second">not held</span>;
}

/** Sizes near its own on the same shelf, each with its verdict at the published limits. */
export function NearSizes({ item, items }: { item: Item; items: ReadonlyMap<string, Item> }) {
  const { nearest, count } = useMemo(() => nearSizes(item, items, shownMost), [item, items]);
  if (item.kind !== 'socket' && item.kind !== 'fastener') return null;
  const what = item.kind === 'socket' ? 'heads' : 'openings';
  return (
    <section className="bw-item-near" aria-labelledby="item-near">
      <h2 id="item-near">Near {what}</h2>
      {count === 0 ? (
        <p className="bw-second">No hexagon within 1 mm of its size is on this shelf.</p>
      ) : (
        <div className="bw-task-scroll" role="region" aria-label={`Near ${what}`} tabIndex={0}>
          <table className="bw-task-table">
            <thead>
              <tr>
                <th scope="col">{item.kind === 'socket' ? 'Head' : 'Opening'}</th>
                <th scope="col">Opening less head</th>
                <th scope="col">Verdict</th>
                <th scope="col">At the limits</th>
              </tr>
            </thead>
            <tbody>
              {nearest.map(({ item: other, differenceMm, verdict, words }) => (
                <tr key={other.id}>
                  <th scope="row">
                    <a href={placeAddress({ at: 'catalog', shelf: other.shelf, item: other.id })}>{other.code}</a>{' '}
                    <span className="bw-second">{sizeOf(other)}</span>
                  </th>
                  <td>{showNumber(differenceMm, 3)} mm</td>
                  <td>
                    <Verdict verdict={verdict} />
                  </td>
                  <td>{words}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {count > nearest.length ? <p className="bw-second">and {count - nearest.length} more</p> : null}
      <p className="bw-source">
        Limits: the head’s own standard and ASME B18.2.2, appendix, as the <a href="#/handbook">handbook</a> has them;
        limits of metric openings are not held. Clearances half to even, three figures. Verify before use.
      </p>
    </section>
  );
}

function sizeOf(item: Item): string {
  if (item.kind === 'socket') return item.opening.size;
  return item.kind === 'fastener' ? `${item.thread}, ${item.head.acrossFlats}` : '';
}
