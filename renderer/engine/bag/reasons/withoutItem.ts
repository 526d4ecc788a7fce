import type { BagOuting, BagResult, BagStep, Infeasibility } from '../../../../shared-types/bag.ts';
import type { Pieces, Proven, WithoutItem } from '../../../../shared-types/bagReasons.ts';
import type { ResolvedPlan } from '../../plan/resolved.ts';
import { shownPieces } from '../../stack/shown.ts';
import { objectiveUnit } from '../measure.ts';
import { stepName } from '../unplaceable.ts';
import type { Asked, ReasonsOptions } from './ask.ts';
import { ask, exact, noWishes, outingTotal } from './ask.ts';
import { keepingAtMost, oneOuting, packedPieces, withOnHand, wishesOn } from './derived.ts';
import { stepConflicts } from './faults/stepConflicts.ts';

/** An item of an outing's bags. */
export interface PackedLine {
  outing: string;
  id: string;
}

/** What is packed, outing by outing, in the order of the catalog. */
export function packedLines(plan: ResolvedPlan, { outings }: BagResult): PackedLine[] {
  return outings.flatMap((outing) => [...packedPieces(plan, outing).keys()].map((id) => ({ outing: outing.id, id })));
}

/**
 * What the planner gives without an item it packs on an outing: without any of it and, where several are packed, with one
 * piece fewer. Of gear that steps list, those steps fail. Nothing of an item that is not packed there.
 *
 * Each answer is the planner's own for that outing with the item's stock so much smaller; nothing is estimated.
 *
 * @returns answer after answer, as they are asked for
 */
export async function* withoutLine(
  plan: ResolvedPlan,
  result: BagResult,
  { outing, id }: PackedLine,
  options: ReasonsOptions,
): AsyncGenerator<WithoutItem> {
  const own = result.outings.find((one) => one.id === outing);
  const packed = own === undefined ? 0 : (packedPieces(plan, own).get(id) ?? 0);
  if (packed === 0) return;
  const lists = stepsThatList(plan, outing, id);
  if (lists.length > 0) {
    yield gearGone(plan, { outing, id, packed, lists }, options);
    return;
  }
  for (const left of packed > 1 ? [packed - 1, 0] : [0]) {
    yield await withoutSome(plan, result, { outing, id, left }, options);
  }
}

/** Which item of which outing, and how many pieces of it may still be packed. */
export interface WithoutAsked {
  outing: string;
  id: string;
  left: number;
}

/**
 * One of those questions.
 *
 * @throws Error where the answer has no such outing
 */
export async function withoutSome(
  plan: ResolvedPlan,
  result: BagResult,
  { outing, id, left }: WithoutAsked,
  options: ReasonsOptions,
): Promise<WithoutItem> {
  const before = result.outings.find((one) => one.id === outing);
  if (!before) throw new Error(`the answer has no outing ${outing}`);
  const alone = oneOuting(plan, outing);
  const wishes = wishesOn(options.wishes ?? noWishes, outing);
  const rest = withOnHand(alone, id, left);
  const asking = { ...options, wishes: keepingAtMost(wishes, id, left) };
  const packed = packedPieces(plan, before).get(id) ?? 0;
  const answer = await ask(rest, asking);
  const after = answer.result.outings.find((one) => one.id === outing);
  const fails = answer.outcome === 'infeasible' ? answer.result.infeasible : [];
  const together = fails.length > 0 && fails.every(({ step }) => step === undefined);
  return {
    outing,
    id,
    packed,
    left,
    unit: objectiveUnit[options.minimise],
    againstWish: wishes.keep.some((wish) => wish.id === id && wish.quantity > left),
    ...costOf(outingTotal(plan, result, before, options.minimise), answer),
    ...(after && answer.total ? changes(plan, before, after) : nothingChanged),
    fails,
    conflicts: together ? await stepConflicts(rest, outing, asking, { most: 1 }) : [],
  };
}

const nothingChanged = { comesIn: [], goesOut: [], changed: [] };

/** By how much the outing then costs more; proven where both answers are. */
function costOf(before: Proven, { outcome, total }: Asked): Pick<WithoutItem, 'outcome' | 'cost'> {
  if (!total) return { outcome, cost: null };
  const cost = { value: exact(total.value - before.value), bound: exact(total.bound - before.value) };
  return { outcome: outcome === 'proven' && before.bound < before.value ? 'stopped' : outcome, cost };
}

function changes(
  plan: ResolvedPlan,
  before: BagOuting,
  after: BagOuting,
): Pick<WithoutItem, 'comesIn' | 'goesOut' | 'changed'> {
  const [was, is] = [packedPieces(plan, before), packedPieces(plan, after)];
  const more = (a: ReadonlyMap<string, number>, b: ReadonlyMap<string, number>): Pieces[] =>
    [...plan.carried.keys()].flatMap((id) => {
      const quantity = (a.get(id) ?? 0) - (b.get(id) ?? 0);
      return quantity > 0 ? [{ id, quantity }] : [];
    });
  const stacks = new Map(before.steps.map((step) => [step.id, stackKey(step)]));
  return {
    comesIn: more(is, was),
    goesOut: more(was, is),
    changed: after.steps
      .filter((step) => stacks.get(step.id) !== stackKey(step))
      .map(({ id, stack, hold }) => ({ id, stack, hold })),
  };
}

function stackKey({ stack, hold }: BagStep): string {
  return JSON.stringify([stack, hold]);
}

/** A step and how much of a piece of gear it lists or takes out of the bag (rule 15). */
interface Lists {
  step: ResolvedPlan['steps'][number];
  quantity: number;
}

function stepsThatList(plan: ResolvedPlan, outing: string, id: string): Lists[] {
  return plan.steps.flatMap((step) => {
    if (step.outing !== outing) return [];
    const gear = [...step.gear, ...step.moves.filter((move) => move.from === 'bag')].filter((one) => one.id === id);
    return gear.length > 0 ? [{ step, quantity: gear.reduce((sum, one) => sum + one.quantity, 0) }] : [];
  });
}

function gearGone(
  plan: ResolvedPlan,
  { outing, id, packed, lists }: { outing: string; id: string; packed: number; lists: Lists[] },
  { minimise }: ReasonsOptions,
): WithoutItem {
  const fails = lists.map(({ step, quantity }): Infeasibility => {
    const need = shownPieces(quantity);
    return {
      step: step.id,
      reason: `${stepName(step)}: lists ${quantity} × ${plan.carried.get(id)?.id ?? id}, which nothing replaces`,
      closest: [{ stack: [], fails: [{ check: 'stock', have: shownPieces(0), need }] }],
    };
  });
  const unit = objectiveUnit[minimise];
  const asked = { outing, id, packed, left: 0, unit, againstWish: false };
  return { ...asked, outcome: 'infeasible', cost: null, ...nothingChanged, fails, conflicts: [] };
}
