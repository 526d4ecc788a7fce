import { showQuantity } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import type { PlanCatalog } from '../../../shared-types/plan.ts';
import { amountText } from './amounts.ts';
import type { BagTotals } from './amounts.ts';

/** What each bag holds against what it may hold. A limit the plan does not give is said so. */
export function LimitsTable({
  totals,
  bags,
  units,
}: {
  totals: BagTotals[];
  bags: PlanCatalog['bags'];
  units: UnitsShown;
}) {
  const once = units === 'both' ? 'as-written' : units;
  const limit = (typed: string | undefined): string =>
    typed === undefined ? 'no limit given' : showQuantity(typed, once);
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
            const typed = bags.find(({ id }) => id === bag.id);
            return (
              <tr key={bag.id}>
                <th scope="row">{bag.name}</th>
                <td>
                  {amountText(contentsKg, 'kg', once)} of {limit(typed?.massMax)}
                </td>
                <td>
                  {volumeL === null ? 'not known' : amountText(volumeL, 'L', once)} of {limit(typed?.volumeMax)}
                </td>
                <td>
                  {pieces} of {bag.itemsMax ?? 'any number'}
                </td>
                <td>
                  {tethers} of {bag.tetherPoints ?? 'any number'}
                </td>
                <td>
                  {longestMm === null ? 'not known' : amountText(longestMm, 'mm', once)} of {limit(typed?.sizeMax)}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </section>
  );
}
