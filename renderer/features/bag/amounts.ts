import type { BagItem, BagObjective, BagOuting, Minimised } from '../../../shared-types/bag.ts';
import type { ResolvedBag, ResolvedPlan } from '../../engine/plan/resolved.ts';
import { convertValue, roundNominal, showQuantity } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';

/** The units a plan is written in: what its bags' limits say, metric where they say nothing. */
export interface OwnUnits {
  kg: 'kg' | 'lb';
  L: 'L' | 'in3';
  mm: 'mm' | 'in';
}

const metric: OwnUnits = { kg: 'kg', L: 'L', mm: 'mm' };
const decimals = { kg: 3, lb: 3, L: 3, in3: 1, mm: 0, in: 1 } as const;

export type AmountUnit = BagObjective['unit'] | 'mm';

function ownUnits(plan: ResolvedPlan): OwnUnits {
  const { bags } = plan.source.catalog;
  const inch = (texts: (string | undefined)[], unit: RegExp): boolean =>
    texts.some((text) => text !== undefined && unit.test(text));
  return {
    kg: inch(
      bags.flatMap(({ massMax, mass }) => [massMax, mass]),
      /lb|oz/i,
    )
      ? 'lb'
      : metric.kg,
    L: inch(
      bags.map(({ volumeMax }) => volumeMax),
      /in/i,
    )
      ? 'in3'
      : metric.L,
    mm: inch(
      bags.map(({ sizeMax }) => sizeMax),
      /in|"|ft/i,
    )
      ? 'in'
      : metric.mm,
  };
}

/** A computed amount in the unit it is computed in, to the gram or the millilitre, then as the user wants it shown. */
export function amountText(value: number, unit: AmountUnit, mode: UnitsShown): string {
  if (unit === 'pieces') return value === 1 ? '1 piece' : `${roundNominal(value, 0)} pieces`;
  return signed(showQuantity(`${roundNominal(value, decimals[unit])} ${unit}`, mode));
}

/** The same in the unit the plan's limits are written in, to stand beside a limit. */
export function amountBesideLimit(plan: ResolvedPlan, value: number, unit: keyof OwnUnits, mode: UnitsShown): string {
  const own = ownUnits(plan)[unit];
  return signed(showQuantity(`${roundNominal(convertValue(value, unit, own), decimals[own])} ${own}`, mode));
}

/** Cubes with their exponent as it is printed. */
export function signed(text: string): string {
  return text.replaceAll(/\b(in|cm)3\b/g, '$1³');
}

/** One unit only where a cell has no room for two. */
export function once(mode: UnitsShown): UnitsShown {
  return mode === 'both' ? 'as-written' : mode;
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
