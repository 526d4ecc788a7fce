import type { BagOuting } from '../../../shared-types/bag.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { UnitsShown } from '../../engine/units/index.ts';

export interface BagDrawingProps {
  plan: ResolvedPlan;
  outing: BagOuting;
  /** Id of the item under the hand. */
  selected?: string | null | undefined;
  onSelect?: ((id: string, bag: string) => void) | undefined;
  units: UnitsShown;
}

/** What lies in which bag, each piece to scale. */
export function BagDrawing({ outing }: BagDrawingProps) {
  return (
    <ul>
      {outing.items.map((item) => (
        <li key={`${item.bag} ${item.id}`}>
          {item.bag}: {item.id} × {item.quantity}
        </li>
      ))}
    </ul>
  );
}
