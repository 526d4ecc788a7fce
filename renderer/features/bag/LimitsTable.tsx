import { showLimit } from '../../engine/units/index.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { amountBesideLimit, once, signed } from './amounts.ts';
import type { BagTotals, OwnUnits } from './amounts.ts';

export interface LimitsTableProps {
  plan: ResolvedPlan;
  totals: BagTotals[];
  units: UnitsShown;
}

/** What each bag holds against what it may hold, in the limit's own unit. A limit the plan does not give is said so. */
export function LimitsTable({ plan, totals, units }: LimitsTableProps) {
  const mode = once(units);
  const against = (value: number | null, unit: keyof OwnUnits, typed: string | undefined): string => {
    const held = value === null ? 'not known' : amountBesideLimit(plan, value, unit, mode);
    return `${held} ${typed === undefined ? '(no limit)' : `of ${signed(showLimit(typed, 'maximum', mode))}`}`;
  };
  return (
    <section aria-labelledby="limits-heading">
      <h3 id="limits-heading">Limits of the bags</h3>
      <table className="bw-checks">
        <thead>
          <tr>
            <th scope="col">Bag</th>
            <th scope="col">Contents, of at most</th>
            <th scope="col">Volume</th>
            <th scope="col">Pieces</th>
            <th scope="col">Tether points</th>
            <th scope="col">Longest</th>
          </tr>
        </thead>
        <tbody>
          {totals.map(({ bag, pieces, contentsKg, volumeL, tethers, longestMm }) => {
            const typed = plan.source.catalog.bags.find(({ id }) => id === bag.id);
            return (
              <tr key={bag.id}>
                <th scope="row">{bag.name}</th>
                <td data-label="contents">{against(contentsKg, 'kg', typed?.massMax)}</td>
                <td data-label="volume">{against(volumeL, 'L', typed?.volumeMax)}</td>
                <td data-label="pieces">
                  {pieces} {bag.itemsMax === null ? '(no limit)' : `of ${bag.itemsMax}`}
                </td>
                <td data-label="tether points">
                  {tethers} {bag.tetherPoints === null ? '(no limit)' : `of ${bag.tetherPoints}`}
                </td>
                <td data-label="longest">{against(longestMm, 'mm', typed?.sizeMax)}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </section>
  );
}
