import type { BagOuting, BagResult } from '../../../shared-types/bag.ts';
import type { LaidLine } from '../../../shared-types/bagMap.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';
import { bagRefusal, newFaults } from './bagCheck.ts';
import { standingOf } from './standing.ts';
import type { Standing } from './standing.ts';
import { withBag } from './withBag.ts';

export interface Arranged {
  /** The outing as it lies. The planner's own object where no line lies in another bag. */
  outing: BagOuting;
  /** The lines laid by hand that still hold. */
  laid: LaidLine[];
  /** Lines which the answer has no more. */
  gone: LaidLine[];
  /** Lines which their bag does not take any more: they lie where the planner put them. */
  refused: LaidLine[];
}

/**
 * A planned outing as a person laid it: lines that lie in other bags than the planner's lie there in the answer too, as
 * long as the bags' limits and roles allow it.
 */
export function arrangedOuting(
  plan: ResolvedPlan,
  planned: BagOuting,
  lines: readonly LaidLine[],
  standing: Standing,
): Arranged {
  const holding = new Set(planned.items.map(({ bag }) => bag));
  const isThere = ({ item, bag, to }: LaidLine): boolean =>
    holding.has(to) && planned.items.some(({ id, bag: lies }) => id === item && lies === bag);
  const there = lines.filter(isThere);
  const gone = lines.filter((line) => !isThere(line));
  const moved = there.filter(({ bag, to }) => bag !== to);
  if (moved.length === 0) return { outing: planned, laid: there, gone, refused: [] };
  const all = moved.reduce((answer, { item, bag, to }) => withBag(plan, answer, { item, from: bag }, to), planned);
  const outing = plan.outings.find(({ id }) => id === planned.id);
  if (outing !== undefined && newFaults(plan, outing, { before: planned, after: all }, standing).length === 0)
    return { outing: all, laid: there, gone, refused: [] };
  const refused: LaidLine[] = [];
  let answer = planned;
  for (const line of moved) {
    const { item, bag, to } = line;
    if (bagRefusal(plan, answer, { item, from: bag, to, standing }) === null)
      answer = withBag(plan, answer, { item, from: bag }, to);
    else refused.push(line);
  }
  return { outing: answer, laid: there.filter((line) => !refused.includes(line)), gone, refused };
}

/** The whole answer as it lies; the planner's own object where nothing lies in another bag. */
export function arrangedResult(
  plan: ResolvedPlan,
  result: BagResult,
  linesOf: (outing: string) => readonly LaidLine[],
): BagResult {
  const outings = result.outings.map(
    (planned) => arrangedOuting(plan, planned, linesOf(planned.id), standingOf(result)).outing,
  );
  return outings.every((outing, index) => outing === result.outings[index]) ? result : { ...result, outings };
}
