import type { BagItem, BagObjective, BagOuting, Minimised } from '../../../shared-types/bag.ts';
import type { ResolvedBag, ResolvedPlan } from '../../engine/plan/resolved.ts';
import { roundNominal, showQuantity } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';

/** A computed amount to the gram or the millilitre, then as the user wants it shown. */
export function amountText(value: number, unit: 'kg' | 'L' | 'mm' | 'pieces', mode: UnitsShown): string {
  if (unit === 'pieces') return value === 1 ? '1 piece' : `${roundNominal(value, 0)} pieces`;
  return showQuantity(`${roundNominal(value, unit === 'mm' ? 0 : 3)} ${unit}`, mode);
}

export function objectiveText({ value, unit }: Pick<BagObjective, 'value' | 'unit'>, mode: UnitsShown): string {
  return amountText(value, unit, mode);
}

export const objectiveUnits: Record<Minimised, BagObjective['unit']> = { mass: 'kg', count: 'pieces', volume: 'L' };

export const objectiveWords: Record<Minimised, string> = {
  mass: 'least mass',
  count: 'fewest pieces',
  volume: 'least volume',
};

export interface BagTotals {
  bag: ResolvedBag;
  items: BagItem[];
  pieces: number;
  /** Contents alone: what the bag's limit of mass counts. */
  contentsKg: number;
  volumeL: number | null;
  tethers: number;
  longestMm: number | null;
}

/** What lies in each bag of an outing that holds something, added up from the lines. */
export function bagTotals(plan: ResolvedPlan, outing: BagOuting): BagTotals[] {
  return [...plan.bags.values()].flatMap((bag) => {
    const items = outing.items.filter((item) => item.bag === bag.id);
    if (items.length === 0) return [];
    const parts = items.map((item) => ({ quantity: item.quantity, piece: plan.carried.get(item.id) }));
    const sum = (each: (part: (typeof parts)[number]) => number): number =>
      parts.reduce((total, part) => total + each(part), 0);
    const volumes = parts.every(({ piece }) => piece?.volumeL !== null && piece?.volumeL !== undefined);
    const sizes = parts.flatMap(({ piece }) => (piece?.sizeMm === null || piece === undefined ? [] : [piece.sizeMm]));
    return [
      {
        bag,
        items,
        pieces: sum(({ quantity }) => quantity),
        contentsKg: sum(({ quantity, piece }) => quantity * (piece?.massKg ?? 0)),
        volumeL: volumes ? sum(({ quantity, piece }) => quantity * (piece?.volumeL ?? 0)) : null,
        tethers: sum(({ quantity, piece }) => quantity * (piece?.tethers ?? 0)),
        longestMm: sizes.length === 0 ? null : Math.max(...sizes),
      },
    ];
  });
}
