import type { EasedLimit, MeasuredLimit } from '../../../../../shared-types/bagReasons.ts';
import type { ReasonsOptions } from '../ask.ts';
import { askToTheEnd } from '../ask.ts';
import { goesWith } from './goesWith.ts';
import { limitsOf } from '../limitsOf.ts';
import type { Wished } from '../relaxed.ts';
import { relaxed } from '../relaxed.ts';

/** How far a limit must be eased; nulls where it is no matter of an amount. */
type Needs = Pick<EasedLimit, 'needs' | 'least'>;

const noAmount: Needs = { needs: null, least: true };

/**
 * The least to which one limit must be eased for steps to go together, where easing it is enough.
 *
 * Counts and lengths are searched by halving between what there is and what the planner takes without the limit.
 * Masses and volumes have no next figure: the limit is set a hair under what the last answer took, until nothing goes.
 *
 * @returns the figure in the limit's own unit, and whether it is proven least
 */
export async function leastThatDoes(core: Wished, limit: MeasuredLimit, options: ReasonsOptions): Promise<Needs> {
  const { kind } = limit.limit;
  if (kind === 'slot' || kind === 'forbid' || limit.allowed === null) return noAmount;
  if (kind === 'keep' || kind === 'spares') return mostThatDoes(core, limit, limit.allowed, options);
  const taken = await takenWithout(core, limit, null, options);
  if (taken === null) return noAmount;
  if (kind === 'massMax' || kind === 'volumeMax') return downFrom(core, limit, taken, options);
  const figures = kind === 'sizeMax' ? sizesBetween(core, limit.allowed, taken) : wholeBetween(limit.allowed, taken);
  return { needs: (await firstThatDoes(core, limit, figures, options)) ?? taken, least: true };
}

/** What the planner takes of a limit when it is eased to a figure, or lifted. */
async function takenWithout(
  core: Wished,
  { outing, limit }: MeasuredLimit,
  figure: number | null,
  options: ReasonsOptions,
): Promise<number | null> {
  const eased = relaxed(core, [limit], () => figure);
  const { result, total } = await askToTheEnd(eased.plan, { ...options, wishes: eased.wishes });
  const answer = result.outings.find(({ id }) => id === outing);
  if (!answer || !total) return null;
  // Measured against the plan with a limit that is there, so that what is used of it is counted.
  const same = limitsOf(core.plan, outing, core.wishes, answer);
  return same.find((one) => JSON.stringify(one.limit) === JSON.stringify(limit))?.used ?? null;
}

/** A hair: more than the tolerance of limits, less than any scale shows. */
const hair = 1e-8;
const triesMost = 12;

async function downFrom(core: Wished, limit: MeasuredLimit, taken: number, options: ReasonsOptions): Promise<Needs> {
  let needs = taken;
  for (let tries = 0; tries < triesMost; tries += 1) {
    const less = await takenWithout(core, limit, needs * (1 - hair), options);
    if (less === null) return { needs, least: true };
    needs = less;
  }
  return { needs, least: false };
}

/** Whole numbers over what there is, up to what is taken without the limit. */
function wholeBetween(allowed: number, taken: number): number[] {
  return Array.from({ length: Math.max(0, taken - allowed) }, (_, index) => allowed + 1 + index);
}

/** Lengths of things that the bag does not take as it is. */
function sizesBetween({ plan }: Wished, allowed: number, taken: number): number[] {
  const sizes = [...plan.carried.values()].flatMap(({ sizeMm }) => sizeMm ?? []);
  return [...new Set(sizes)].filter((size) => size > allowed && size <= taken).toSorted((a, b) => a - b);
}

/** The first of rising figures with which the steps go; the last one is known to do. */
async function firstThatDoes(
  core: Wished,
  { limit }: MeasuredLimit,
  figures: readonly number[],
  options: ReasonsOptions,
): Promise<number | undefined> {
  let [low, high] = [0, figures.length - 1];
  while (low < high) {
    const middle = Math.floor((low + high) / 2);
    if (await goesWith(core, [limit], options, figures[middle] ?? 0)) high = middle;
    else low = middle + 1;
  }
  return figures[low];
}

/** Of a wish: the most of it that can be granted. */
async function mostThatDoes(
  core: Wished,
  { limit }: MeasuredLimit,
  wished: number,
  options: ReasonsOptions,
): Promise<Needs> {
  for (let fewer = wished - 1; fewer > 0; fewer -= 1) {
    if (await goesWith(core, [limit], options, fewer)) return { needs: fewer, least: true };
  }
  return { needs: 0, least: true };
}
