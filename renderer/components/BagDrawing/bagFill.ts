import type { BagOuting } from '../../../shared-types/bag.ts';
import type { ResolvedBag, ResolvedPlan } from '../../engine/plan/resolved.ts';
import { roundNominal, showNumber, showQuantity } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';

/** One thing a bag is limited in: how much of it lies in there, against the limit. */
export interface Fill {
  name: string;
  /** "2.522 kg (5.56 lb) of 4 kg (8.82 lb)", or without a limit what there is. */
  text: string;
  /** 0 to 1 and beyond; null where the bag has no such limit or the sum is not known. */
  share: number | null;
}

export function bagFills(plan: ResolvedPlan, bag: ResolvedBag, outing: BagOuting, units: UnitsShown): Fill[] {
  const items = outing.items.filter((item) => item.bag === bag.id);
  const sum = (each: (id: string) => number): number =>
    items.reduce((total, { id, quantity }) => total + quantity * each(id), 0);
  const piece = (id: string) => plan.carried.get(id);
  const massKg = sum((id) => piece(id)?.massKg ?? 0);
  const without = items.filter(({ id }) => (piece(id)?.volumeL ?? null) === null).length;
  const volumeL = sum((id) => piece(id)?.volumeL ?? 0);
  const pieces = sum(() => 1);
  const tethers = sum((id) => piece(id)?.tethers ?? 0);
  const amount = (value: number, unit: 'kg' | 'L'): string => showQuantity(`${roundNominal(value, 3)} ${unit}`, units);
  const fill = (name: string, value: number, limit: number | null, text: (value: number) => string): Fill => ({
    name,
    text: limit === null ? `${text(value)}, no limit given` : `${text(value)} of ${text(limit)}`,
    share: limit === null || limit === 0 ? null : value / limit,
  });
  const volume = fill('volume', volumeL, bag.volumeMaxL, (v) => amount(v, 'L'));
  return [
    fill('mass', massKg, bag.massMaxKg, (v) => amount(v, 'kg')),
    without === 0
      ? volume
      : {
          ...volume,
          text: `at least ${volume.text}; ${without} without a volume`,
          share: bag.volumeMaxL === null ? null : volume.share,
        },
    fill('pieces', pieces, bag.itemsMax, showNumber),
    fill('tether points', tethers, bag.tetherPoints, showNumber),
  ];
}
