import type { BagObjective, BagOuting, BagResult, BagWishes, ItemWish } from '../../../shared-types/bag.ts';
import type { Plan } from '../../../shared-types/plan.ts';
import { standingOf } from '../bagMap/standing.ts';
import { readdObjective, recheckOuting } from '../bag/recheck.ts';
import { RefusedError } from '../errors.ts';
import type { Frozen } from '../frozen/index.ts';
import { planProblems } from '../outing/planProblems.ts';
import { planFrom } from '../plan/readPlan.ts';
import type { ResolvedPlan } from '../plan/resolved.ts';
import { textOfPlan } from '../records/textOfPlan.ts';
import { asPacked } from './asPacked.ts';
import type { PackState } from './packState.ts';

/** What the planner is asked: an outing alone, with what is truly there. */
export interface WithoutTask {
  text: string;
  wishes: BagWishes;
  /** Pieces that are there of what was named missing. */
  there: ReadonlyMap<string, number>;
  /** Wishes of the manifest that cannot be held any more, in words. */
  dropped: string[];
}

type Parts = Pick<Frozen, 'plan' | 'result'>;

/**
 * What to ask the planner, so that an outing can be packed without what is not there.
 *
 * Of what was named missing the stock is what was counted in, whole; of gear that is used up, what the other outings take is taken
 * off. What is packed already is kept, if it is asked for.
 *
 * @param frozen - the manifest
 * @param state - how far it is packed
 * @param keepPacked - whether everything counted in stays
 * @returns plan and wishes for the planner
 */
export function withoutTask({ plan, result }: Parts, state: PackState, keepPacked: boolean): WithoutTask {
  const counted = wholeCounted(state);
  const missing = new Set(
    state.bags.flatMap(({ lines }) => lines.flatMap((line) => (line.missing.parts > 0 ? [line.line.item] : []))),
  );
  const there = new Map([...missing].map((item) => [item, counted.get(item) ?? 0]));
  const elsewhere = (item: string): number =>
    result.outings.reduce(
      (sum, { id, items }) =>
        id === state.outing ? sum : sum + items.reduce((all, one) => all + (one.id === item ? one.quantity : 0), 0),
      0,
    );
  const stock = new Map<string, number>(there);
  for (const gear of plan.gear.values())
    if (gear.consumed && !stock.has(gear.id)) stock.set(gear.id, Math.max(0, gear.onHand - elsewhere(gear.id)));
  const source: Plan = {
    ...withStockIn(plan.source, stock),
    outings: plan.source.outings.filter(({ id }) => id === state.outing),
    steps: plan.source.steps.filter(({ outing }) => outing === state.outing),
  };
  const { wishes } = standingOf(result);
  const here = <T extends { outing?: string }>(list: readonly T[]): T[] =>
    list.filter(({ outing }) => outing === undefined || outing === state.outing);
  const held = <T extends ItemWish>(list: readonly T[]): T[] => here(list).filter(({ id }) => !missing.has(id));
  const dropped = [...here(wishes.keep), ...here(wishes.spares)]
    .filter(({ id }) => missing.has(id))
    .map(({ id, quantity }) => `${quantity} of ${id} asked for beyond what is needed`);
  const packed = keepPacked ? [...counted].map(([id, quantity]) => ({ id, quantity })) : [];
  return {
    ...{ text: textOfPlan(source), there, dropped },
    wishes: { keep: [...held(wishes.keep), ...packed], forbid: here(wishes.forbid), spares: held(wishes.spares) },
  };
}

/** Whole pieces counted in over all bags of the outing, by item. */
function wholeCounted({ bags }: PackState): Map<string, number> {
  const counted = new Map<string, number>();
  for (const { line, thing, counted: held } of bags.flatMap(({ lines }) => lines)) {
    const whole = Math.max(0, held.pieces - (held.pieces * thing.parts - held.parts));
    if (whole > 0) counted.set(line.item, (counted.get(line.item) ?? 0) + whole);
  }
  return counted;
}

function withStockIn(source: Plan, stock: ReadonlyMap<string, number>): Plan {
  const less = <T extends { id: string; onHand: number }>(list: readonly T[]): T[] =>
    list.map((item) => ({ ...item, onHand: Math.min(item.onHand, stock.get(item.id) ?? item.onHand) }));
  const { catalog } = source;
  return {
    ...source,
    catalog: {
      ...catalog,
      sockets: less(catalog.sockets),
      extensions: less(catalog.extensions),
      drivers: less(catalog.drivers),
      torqueTools: less(catalog.torqueTools),
      carryGear: less(catalog.carryGear),
    },
  };
}

/** The next manifest, as far as the planner goes: the frozen one with this outing planned anew. */
export interface Without {
  text: string;
  plan: ResolvedPlan;
  result: BagResult;
  /** Other outings that take more of what is missing than was found. */
  alsoShort: { outing: string; item: string; takes: number; there: number }[];
}

/**
 * The frozen manifest with an outing planned without what is not there.
 *
 * What lies in a bag already stays there where the answer allows it. The other outings stay as they were frozen; where they count on
 * more of a missing thing than is there, it is said, and the whole is not called proven.
 *
 * @param frozen - the manifest
 * @param state - how far it is packed
 * @param asked - what the planner was asked, and its answer
 * @returns plan and answer of the next manifest
 * @throws RefusedError where the answer has no bag, or fails its second count
 */
export function withoutIt(frozen: Parts, state: PackState, asked: { task: WithoutTask; answer: BagResult }): Without {
  const { task, answer } = asked;
  const { result: before } = frozen;
  const found = answer.outings.find(({ id }) => id === state.outing);
  if (answer.status === 'infeasible' || found === undefined)
    throw new RefusedError({ code: 'contradiction', message: 'there is no bag without it', field: 'result' });
  const most = (item: string): number =>
    Math.max(0, ...before.outings.filter(({ id }) => id !== state.outing).map((one) => quantityIn(one, item)));
  const stock = new Map([...task.there].map(([item, there]) => [item, Math.max(there, most(item))]));
  const source = withStockIn(frozen.plan.source, stock);
  const plan = planFrom(source);
  const wishes = wishesOf(standingOf(before).wishes, task, { outing: state.outing, others: before.outings });
  const laid = asPacked(plan, { ...answer, wishes }, found, state);
  const outings = before.outings.map((one) => (one.id === state.outing ? laid : one));
  const outing = plan.outings.find(({ id }) => id === state.outing);
  const faults =
    outing === undefined
      ? ['the plan has no such outing']
      : recheckOuting(plan, outing, laid, { tolerance: answer.tolerance, wishes });
  if (faults[0] !== undefined)
    throw new RefusedError({ code: 'internal', message: `the second count finds: ${faults[0]}`, field: 'result' });
  const alsoShort = [...task.there].flatMap(([item, there]) =>
    before.outings.flatMap((one) => {
      const takes = one.id === state.outing ? 0 : quantityIn(one, item);
      return takes > there ? [{ outing: one.id, item, takes, there }] : [];
    }),
  );
  const isProven = before.status === 'optimal' && answer.status === 'optimal' && alsoShort.length === 0;
  return {
    ...{ text: textOfPlan(source), plan, alsoShort },
    result: {
      ...before,
      ...{ outings, wishes, status: isProven ? 'optimal' : 'stopped' },
      objective: objectiveOf(before, answer, { plan, outings, isProven }),
      singleLoss: before.singleLoss && answer.singleLoss,
      problems: planProblems(plan),
    },
  };
}

const quantityIn = ({ items }: BagOuting, item: string): number =>
  items.reduce((sum, one) => (one.id === item ? sum + one.quantity : sum), 0);

/** Wishes of the manifest for the other outings as they were, for this one as the planner was asked. */
function wishesOf(
  frozen: BagWishes,
  { wishes }: WithoutTask,
  { outing, others }: { outing: string; others: readonly BagOuting[] },
): BagWishes {
  const rest = others.map(({ id }) => id).filter((id) => id !== outing);
  const spread = <T extends { outing?: string }>(list: readonly T[], now: readonly T[]): T[] => [
    ...list.flatMap((wish) =>
      wish.outing === undefined ? rest.map((id) => ({ ...wish, outing: id })) : wish.outing === outing ? [] : [wish],
    ),
    ...now.map((wish) => ({ ...wish, outing })),
  ];
  return {
    keep: spread(frozen.keep, wishes.keep),
    forbid: spread(frozen.forbid, wishes.forbid),
    spares: spread(frozen.spares, wishes.spares),
  };
}

function objectiveOf(
  before: BagResult,
  answer: BagResult,
  { plan, outings, isProven }: { plan: ResolvedPlan; outings: readonly BagOuting[]; isProven: boolean },
): BagObjective | null {
  if (before.objective === null) return null;
  const { minimised, unit } = before.objective;
  const value = readdObjective(plan, outings, minimised);
  const open = [before, answer].reduce(
    (sum, { objective }) => sum + (objective ? objective.value - objective.bound : 0),
    0,
  );
  // What the first plan could not beat, less stock cannot beat either.
  const bound = isProven ? value : Math.max(0, Math.min(value, before.objective.bound) - open);
  return { minimised, value, unit, bound, gap: value === 0 ? 0 : (value - bound) / value };
}
