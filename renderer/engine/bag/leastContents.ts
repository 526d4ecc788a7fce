import type { Highs } from 'highs';
import type { ResolvedPlan } from '../plan/resolved.ts';
import type { Ways } from '../stack/ways.ts';
import { atMost } from '../tolerance.ts';
import { bagModel } from './model/bagModel.ts';
import type { Content, Known } from './contents.ts';
import { better, contentsOf, piecesCounted, piecesOf, readContents, sharesBags } from './contents.ts';
import type { LeastContents, LeastOptions } from './least.ts';
import { leastByCuts } from './cuts/leastByCuts.ts';
import type { Costs } from './model/costs.ts';
import { isNetwork } from './model/flow.ts';
import type { Loss } from './model/losses.ts';
import type { ReducedWork } from './presolve/reduceWork.ts';
import type { Covering } from './search/covering.ts';
import { covering } from './search/covering.ts';
import { carriedItem } from './measure.ts';
import type { TableFlow } from './search/coverTable.ts';
import { cheapestStack } from './search/coverTable.ts';
import { firstBag, mended } from './search/firstBag.ts';
import { likelyLosses, missedLosses } from './search/toldLosses.ts';
import { placed } from './search/place.ts';
import { servedBy } from './search/standing.ts';
import { drawsFrom } from './outingWork.ts';

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
  const { costs, elastic = false, anyAnswer = false, timeLimitS, flowsMost = easyFlows } = options;
  const quick = elastic || anyAnswer || reduced.work.tolerance === 'bag';
  const cover = covering(plan, reduced, costs);
  const told = progressTold(options, costs);
  const byCuts = !elastic && !anyAnswer && flowColumns(reduced) > flowsMost;
  let have = quick ? null : firstBag(cover, byCuts ? shakesBeforeCuts : undefined);
  const losses: Loss[] = have && reduced.work.tolerance === 'piece' ? toldFirst(cover, have) : [];
  const open = reduced.work.tolerance === 'piece' && !reduced.standing.every(isNetwork);
  let known: Known | null = null;
  let seconds = 0;
  let bound = elastic || anyAnswer ? 0 : plainBound(cover, reduced, costs, plan);
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
    if (answer && !quick) have = mended(cover, piecesCounted(cover, answer), have);
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
/** Up to so many columns the program with all flows is solved sooner than cuts are gathered. */
const easyFlows = 1500;
/** Where a better bag will come from the program in shares. */
const shakesBeforeCuts = 2;

function flowColumns({ groups, standing }: ReducedWork): number {
  return [...groups, ...standing].reduce(
    (sum, { ways, holds }) => sum + columnsOf(ways) + (holds ? columnsOf(holds) : 0),
    0,
  );
}

function columnsOf({ tools, ladders }: Ways): number {
  return tools.length + ladders.reduce((sum, { rungs, chains }) => sum + rungs.flat().length + chains.length, 0);
}

/** No bag holds less than its gear and the least that its most demanding step takes. */
function plainBound(cover: Covering, { work }: ReducedWork, costs: Costs, plan: ResolvedPlan): number {
  const gear = [...work.gear].reduce(
    (sum, [id, count]) => sum + costs.ofItem(carriedItem(plan.carried, id)) * count,
    0,
  );
  const nothing = new Int32Array(cover.table.ids.length);
  const supply = { ...cover.table, have: nothing, used: nothing };
  // What holds has pieces of its own.
  const cheapest = (flow: TableFlow | null): number => (flow && cheapestStack(flow, supply)?.cost) ?? 0;
  const least = cover.groups.map(({ main, hold }) => cheapest(main) + cheapest(hold));
  return gear + Math.max(0, ...least);
}

/** The figures of the search, told where they change. */
function progressTold(
  { onProgress }: LeastOptions,
  { back }: Costs,
): (told: { best: number | null; bound: number }) => void {
  let before = '';
  return ({ best, bound }) => {
    const now = JSON.stringify([best, bound]);
    if (now === before) return;
    before = now;
    onProgress?.({ best: best === null ? null : back(best), bound: back(bound) });
  };
}

/** Whether pieces that were laid into bags without a look at hands are where each role can draw on them. */
function servesRoles(cover: Covering, { work }: ReducedWork, contents: readonly Content[]): boolean {
  if (sharesBags(work)) return true;
  const { table, groups } = cover;
  return groups.every((group) => {
    const { role, slot } = group.group;
    // Who draws what at one time from which bag is for the solver to say.
    if (slot !== null) return false;
    const have = piecesCounted(
      cover,
      contents.filter(({ bag }) => drawsFrom(bag, role)),
    );
    return servedBy(group, { have, used: new Int32Array(have.length), cost: table.cost, most: have }) !== null;
  });
}

function missedBy(cover: Covering, { work }: ReducedWork, contents: readonly Content[]): Loss[] {
  return work.tolerance === 'piece' ? missedLosses(cover, piecesCounted(cover, contents)) : [];
}
