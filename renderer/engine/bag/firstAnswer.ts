import type { ResolvedPlan } from '../plan/resolved.ts';
import type { Ways } from '../stack/ways.ts';
import type { Content, Known } from './contents.ts';
import { better, contentsOf, piecesCounted, piecesOf, sharesBags } from './contents.ts';
import { masterOf } from './cuts/master.ts';
import type { FirstAnswer, LeastOptions } from './least.ts';
import { carriedItem } from './measure.ts';
import type { Costs } from './model/costs.ts';
import { atOneTime, drawsFrom } from './outingWork.ts';
import type { ReducedWork } from './presolve/reduceWork.ts';
import type { Covering } from './search/covering.ts';
import { covering } from './search/covering.ts';
import type { TableFlow } from './search/coverTable.ts';
import { cheapestStack } from './search/coverTable.ts';
import { firstBag } from './search/firstBag.ts';
import { placed } from './search/place.ts';
import { servedBy } from './search/standing.ts';
import { slotOptions } from './settle/slots.ts';

/** The figures of a first answer. */
export function figuresOf({ known, bound }: FirstAnswer): { best: number | null; bound: number } {
  return { best: known?.cost ?? null, bound };
}

/** Up to so many columns the program with all flows is solved sooner than cuts are gathered. */
const easyFlows = 1500;
/** Where a better bag will come from the program in shares. */
const shakesBeforeCuts = 2;

/** A good bag soon, by the local search, and the least that one could cost. */
export function firstAnswer(plan: ResolvedPlan, reduced: ReducedWork, options: LeastOptions): FirstAnswer {
  const { costs, elastic = false, anyAnswer = false, flowsMost = easyFlows } = options;
  const quick = elastic || anyAnswer || reduced.work.tolerance === 'bag';
  const cover = covering(plan, reduced, costs);
  const byCuts = !elastic && !anyAnswer && flowColumns(reduced) > flowsMost;
  const have = quick ? null : firstBag(cover, byCuts ? shakesBeforeCuts : undefined);
  const bound = elastic || anyAnswer ? 0 : plainBound(cover, reduced, costs, plan);
  return { cover, byCuts, have, known: have && packed(plan, reduced, { cover, have, costs }), bound };
}

function packed(
  plan: ResolvedPlan,
  reduced: ReducedWork,
  { cover, have, costs }: { cover: Covering; have: Int32Array; costs: Costs },
): Known | null {
  const { model } = masterOf(plan, reduced, costs);
  const start = placed(model, reduced.work, piecesOf(cover, have));
  const contents = start && contentsOf(model, (column) => start.get(column) ?? 0);
  return contents && servesRoles(cover, reduced, contents) ? better(null, contents, costs) : null;
}

function flowColumns({ groups, standing }: ReducedWork): number {
  return [...groups, ...standing].reduce(
    (sum, { ways, holds }) => sum + columnsOf(ways) + (holds ? columnsOf(holds) : 0),
    0,
  );
}

/** So many columns the flows of these ways take. */
export function columnsOf({ tools, ladders }: Ways): number {
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

/** Whether pieces that were laid into bags without a look at hands are where each role can draw on them. */
export function servesRoles(cover: Covering, { work }: ReducedWork, contents: readonly Content[]): boolean {
  if (sharesBags(work)) return true;
  const { table, groups } = cover;
  const inSlots = atOneTime(groups.map(({ group }) => group).filter(({ slot }) => slot !== null));
  if (inSlots.some((together) => slotOptions(work.stock, contents, together) === null)) return false;
  return groups.every((group) => {
    const { role, slot } = group.group;
    if (slot !== null) return true;
    const have = piecesCounted(
      cover,
      contents.filter(({ bag }) => drawsFrom(bag, role)),
    );
    return servedBy(group, { have, used: new Int32Array(have.length), cost: table.cost, most: have }) !== null;
  });
}
