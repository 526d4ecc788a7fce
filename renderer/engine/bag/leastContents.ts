import type { Highs } from 'highs';
import type { ResolvedPlan } from '../plan/resolved.ts';
import { atMost } from '../tolerance.ts';
import type { Content } from './contents.ts';
import { better, contentsOf, piecesCounted, piecesOf, readContents } from './contents.ts';
import { leastByCuts } from './cuts/leastByCuts.ts';
import { columnsOf, figuresOf, firstAnswer, servesRoles } from './firstAnswer.ts';
import type { LeastContents, LeastOptions } from './least.ts';
import { bagModel } from './model/bagModel.ts';
import { isNetwork } from './model/flow.ts';
import type { Loss } from './model/losses.ts';
import type { ReducedWork } from './presolve/reduceWork.ts';
import { progressTold } from './progressTold.ts';
import type { Covering } from './search/covering.ts';
import { mended } from './search/firstBag.ts';
import { placed } from './search/place.ts';
import { likelyLosses, missedLosses } from './search/toldLosses.ts';

/**
 * Solves an outing's program. A good bag found beforehand gives the solver its first answer.
 *
 * To stand the loss of a piece there would be a flow for every step and every piece; most never matter. So the program
 * begins with none, and is told of those that its answer does not survive, until it survives all. Each program allows
 * less than the one before, so the last answer is the least, and every bound on the way is one. What an answer lacks is
 * packed beside it, which gives the next program its first answer.
 *
 * @returns the contents with how far they are proven; none where there are none, or time ran out before the first
 */
export function leastContents(
  highs: Highs,
  plan: ResolvedPlan,
  reduced: ReducedWork,
  options: LeastOptions,
): LeastContents {
  const { costs, elastic = false, anyAnswer = false, timeLimitS } = options;
  const { cover, byCuts, ...first } = options.first ?? firstAnswer(plan, reduced, options);
  const told = progressTold(options, costs, options.first && figuresOf(options.first));
  let { have, known, bound } = first;
  const losses: Loss[] = have && reduced.work.tolerance === 'piece' ? toldFirst(cover, have) : [];
  const open = reduced.work.tolerance === 'piece' && !reduced.standing.every(isNetwork);
  let seconds = 0;
  if (byCuts) {
    const servesAll = (contents: readonly Content[]): boolean => servesRoles(cover, reduced, contents);
    const found = leastByCuts(highs, plan, reduced, cover, {
      costs,
      timeLimitS,
      told,
      have,
      bound,
      servesRoles: servesAll,
    });
    if (found) return found;
  }
  for (;;) {
    const model = bagModel(plan, reduced, { costs, losses, elastic });
    if (anyAnswer) model.program.dropCosts();
    const start = have && placed(model, reduced.work, piecesOf(cover, have));
    const started = start && contentsOf(model, (column) => start.get(column) ?? 0);
    if (started && servesRoles(cover, reduced, started)) known = better(known, started, costs);
    told({ best: known?.cost ?? null, bound });
    if (known && atMost(known.cost, bound)) return { status: 'optimal', contents: known.contents, bound, seconds };
    const solution = model.program.solve(highs, {
      timeLimitS: timeLimitS === undefined ? undefined : Math.max(0.01, timeLimitS - seconds),
      start: start ?? undefined,
      onProgress: (progress) => {
        // An answer that was not told every loss may not stand one.
        const found = open ? null : progress.best;
        const best = Math.min(known?.cost ?? Infinity, found ?? Infinity);
        told({ best: Number.isFinite(best) ? best : null, bound: Math.max(bound, progress.bound ?? 0) });
      },
    });
    seconds += solution.seconds;
    if (solution.status === 'infeasible') return { status: 'infeasible', contents: null, bound: Infinity, seconds };
    bound = Math.max(bound, solution.bound);
    const answer = readContents(model, solution);
    const missed = answer ? missedBy(cover, reduced, answer) : [];
    if (answer && missed.length === 0) {
      const best = solution.status === 'optimal' ? answer : (better(known, answer, costs)?.contents ?? answer);
      return { status: solution.status, contents: best, bound, seconds };
    }
    if (solution.status === 'stopped') return { status: 'stopped', contents: known?.contents ?? null, bound, seconds };
    losses.push(...missed);
    if (answer && !elastic && !anyAnswer && reduced.work.tolerance !== 'bag')
      have = mended(cover, piecesCounted(cover, answer), have);
  }
}

/** As many losses as a program still takes easily. */
function toldFirst(cover: Covering, have: Int32Array): Loss[] {
  const likely = likelyLosses(cover, have).filter(({ group }) => !isNetwork(group));
  const columns = likely.reduce(
    (sum, { group }) => sum + columnsOf(group.ways) + (group.holds ? columnsOf(group.holds) : 0),
    0,
  );
  return columns > easyColumns ? [] : likely;
}

const easyColumns = 10_000;
function missedBy(cover: Covering, { work }: ReducedWork, contents: readonly Content[]): Loss[] {
  return work.tolerance === 'piece' ? missedLosses(cover, piecesCounted(cover, contents)) : [];
}
