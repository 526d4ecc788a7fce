import type { Carried, ResolvedBag, ResolvedPlan } from '../plan/resolved.ts';
import { atMost } from '../tolerance.ts';
import { showNumber } from '../units/index.ts';
import type { IssueCheck } from './issueCheck.ts';
import type { PackedBag } from './packState.ts';

/**
 * Each bag against its own limits, from what is truly counted into it.
 *
 *   Σ pieces · mass, volume, tether points of one; pieces; the longest piece
 *
 * A piece that lacks parts weighs as a whole one: no mass of its parts is known.
 *
 * @param plan - as it was frozen
 * @param bags - as they are packed
 * @returns one check for each limit that a bag has
 */
export function limitChecks(plan: ResolvedPlan, bags: readonly PackedBag[]): IssueCheck[] {
  return bags.flatMap((packed) => {
    const bag = plan.bags.get(packed.id);
    return bag === undefined ? [] : checksOf(plan, bag, packed);
  });
}

function checksOf(plan: ResolvedPlan, bag: ResolvedBag, { lines }: PackedBag): IssueCheck[] {
  const inside = lines.flatMap(({ line, counted }) => {
    const item = plan.carried.get(line.item);
    return item === undefined || counted.pieces === 0 ? [] : [{ item, pieces: counted.pieces }];
  });
  const sum = (each: (item: Carried) => number): number =>
    inside.reduce((total, { item, pieces }) => total + pieces * each(item), 0);
  const unknown = (each: (item: Carried) => number | null): string[] =>
    inside.filter(({ item }) => each(item) === null).map(({ item }) => item.id);
  const check = (
    what: string,
    { value, limit, unit, without = [] }: { value: number; limit: number | null; unit: string; without?: string[] },
  ): IssueCheck[] => {
    if (limit === null) return [];
    const said = `${showNumber(value)} ${unit}`;
    const fits = atMost(value, limit);
    return [
      {
        ...{
          about: 'limits',
          bag: bag.id,
          what: `Bag ${bag.id}: ${what}`,
          need: `at most ${showNumber(limit)} ${unit}`,
        },
        have: without.length === 0 ? said : `${said}; not known of ${without.join(', ')}`,
        state: !fits ? 'blocks' : without.length > 0 ? 'noted' : 'holds',
      },
    ];
  };
  return [
    ...check('mass of what lies in it', { value: sum(({ massKg }) => massKg), limit: bag.massMaxKg, unit: 'kg' }),
    ...check('volume', {
      ...{ value: sum(({ volumeL }) => volumeL ?? 0), limit: bag.volumeMaxL, unit: 'L' },
      without: unknown(({ volumeL }) => volumeL),
    }),
    ...check('pieces', { value: sum(() => 1), limit: bag.itemsMax, unit: 'pieces' }),
    ...check('longest piece', {
      ...{ value: Math.max(0, ...inside.map(({ item }) => item.sizeMm ?? 0)), limit: bag.sizeMaxMm, unit: 'mm' },
      without: unknown(({ sizeMm }) => sizeMm),
    }),
    ...check('tether points', { value: sum(({ tethers }) => tethers), limit: bag.tetherPoints, unit: 'points' }),
  ];
}
