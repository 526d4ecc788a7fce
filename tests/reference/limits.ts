/** What a bag costs and what it can hold (rule 9 and the objective). */
import type { Minimised } from '../../shared-types/bag.ts';
import type { BreakName } from './breaks.ts';
import { atMost } from './quantity.ts';
import type { Bag, Carried } from './stock.ts';

const sum = (numbers: readonly number[]): number => numbers.reduce((total, one) => total + one, 0);

export function costOf(item: Carried, minimise: Minimised): number {
  if (minimise === 'count') return 1;
  return minimise === 'mass' ? item.massKg : (item.volumeL ?? 0);
}

export function ownBagCost(bag: Bag, minimise: Minimised, broken?: BreakName): number {
  return minimise === 'mass' && broken !== 'objectiveBagMass' ? bag.massKg : 0;
}

/** The limits of a bag, each by name, for pieces that lie in it together (rule 9). */
export function brokenLimits(
  bag: Bag,
  inside: readonly { item: Carried; count: number }[],
  broken?: BreakName,
): string[] {
  const total = (of: (item: Carried) => number): number => sum(inside.map(({ item, count }) => count * of(item)));
  const ownKg = broken === 'ownMassInLimit' && inside.some(({ count }) => count > 0) ? bag.massKg : 0;
  const checks: [BreakName, boolean][] = [
    ['bagMass', atMost(total((item) => item.massKg) + ownKg, bag.massMaxKg)],
    [
      'bagVolume',
      bag.volumeMaxL === Infinity ||
        atMost(
          total((item) => item.volumeL ?? 0),
          bag.volumeMaxL,
        ),
    ],
    ['bagItems', total(() => 1) <= bag.itemsMax],
    ['bagTethers', total((item) => item.tethers) <= bag.tetherPoints],
    [
      'bagSize',
      inside.every(({ item, count }) => count === 0 || item.sizeMm === null || atMost(item.sizeMm, bag.sizeMaxMm)),
    ],
  ];
  return checks.filter(([name, holds]) => !holds && name !== broken).map(([name]) => name);
}
