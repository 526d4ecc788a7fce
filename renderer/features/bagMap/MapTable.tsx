import classes from '../../components/BagMap/BagMap.module.css';
import type { MapLayout } from '../../engine/bagMap/mapLayout.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { amountText, once } from '../bag/amounts.ts';
import { itemName } from '../steps/words.ts';

export interface MapTableProps {
  plan: ResolvedPlan;
  layout: MapLayout;
  units: UnitsShown;
}

const sizeWords = { both: '', length: ', width assumed', none: ', size assumed' } as const;

/** The bag map in words: what lies where, how long and wide it is, and who laid it there. */
export function MapTable({ plan, layout, units }: MapTableProps) {
  const mm = (value: number): string => amountText(value, 'mm', once(units));
  return (
    <table className={classes['table']}>
      <thead>
        <tr>
          <th scope="col">Bag, pocket</th>
          <th scope="col">Item</th>
          <th scope="col">Pieces</th>
          <th scope="col">Each</th>
          <th scope="col">From left, top</th>
          <th scope="col">Laid</th>
        </tr>
      </thead>
      <tbody>
        {layout.bags.flatMap(({ bag, blocks, pockets }) =>
          blocks.map(({ block, pocket, xMm, yMm, turned, byHand }) => (
            <tr key={block.key}>
              <td>
                {bag.name}
                {pocket === null ? '' : `, ${pocket}`}
              </td>
              <th scope="row">
                <span className={classes['code']}>{block.item}</span> {itemName(plan, block.item)}
              </th>
              <td>{block.quantity}</td>
              <td>
                {mm(block.piece.lengthMm)} × {mm(block.piece.acrossMm)}
                {sizeWords[block.piece.known]}
              </td>
              <td>
                {mm(xMm)}, {mm(yMm - (pockets.find(({ name }) => name === pocket)?.beginMm ?? 0))}
                {turned ? ', turned' : ''}
              </td>
              <td>{byHand ? 'by hand' : block.bag === bag.id ? 'by itself' : 'by hand, place by itself'}</td>
            </tr>
          )),
        )}
      </tbody>
    </table>
  );
}
