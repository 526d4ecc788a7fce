import type { BagOuting, BagResult } from '../../../shared-types/bag.ts';
import type { LaidLine } from '../../../shared-types/bagMap.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';
import { bagRefusal, newFaults } from './bagCheck.ts';
import { blockKey } from './mapBlocks.ts';
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
  const { there, gone } = sorted(planned, lines);
  const moved = there
    .filter(({ bag, to }) => bag !== to)
    .map((line) => ({ line, pieces: piecesOf(planned, there, line) }));
  if (moved.length === 0) return { outing: planned, laid: there, gone, refused: [] };
  const all = moved.reduce(
    (answer, { line: { item, bag, to }, pieces }) => withBag(plan, answer, { item, from: bag, pieces }, to),
    planned,
  );
  const outing = plan.outings.find(({ id }) => id === planned.id);
  if (outing !== undefined && newFaults(plan, outing, { before: planned, after: all }, standing).length === 0)
    return { outing: all, laid: there, gone, refused: [] };
  const refused: LaidLine[] = [];
  let answer = planned;
  for (const { line, pieces } of moved) {
    const { item, bag, to } = line;
    if (bagRefusal(plan, answer, { item, from: bag, to, pieces, standing }) === null)
      answer = withBag(plan, answer, { item, from: bag, pieces }, to);
    else refused.push(line);
  }
  return { outing: answer, laid: there.filter((line) => !refused.includes(line)), gone, refused };
}

/** Lines that the answer still has, parts as long as a piece of their line is left beside them; and the others. */
function sorted(planned: BagOuting, lines: readonly LaidLine[]): { there: LaidLine[]; gone: LaidLine[] } {
  const holding = new Set(planned.items.map(({ bag }) => bag));
  const left = new Map(planned.items.map(({ id, bag, quantity }) => [blockKey(bag, id), quantity]));
  const there: LaidLine[] = [];
  const gone: LaidLine[] = [];
  for (const line of lines) {
    const key = blockKey(line.bag, line.item);
    const pieces = left.get(key);
    const taken = line.apart?.pieces ?? 0;
    if (pieces === undefined || !holding.has(line.to) || taken >= pieces) gone.push(line);
    else {
      left.set(key, pieces - taken);
      there.push(line);
    }
  }
  return { there, gone };
}

/** How many pieces a laid line is: its own where they lie apart, else what those leave. */
function piecesOf(planned: BagOuting, there: readonly LaidLine[], { item, bag, apart }: LaidLine): number {
  if (apart !== undefined) return apart.pieces;
  const all = planned.items.find(({ id, bag: lies }) => id === item && lies === bag)?.quantity ?? 0;
  return there.reduce(
    (rest, line) => (line.item === item && line.bag === bag ? rest - (line.apart?.pieces ?? 0) : rest),
    all,
  );
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
