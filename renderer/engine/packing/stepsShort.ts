import type { BagOuting } from '../../../shared-types/bag.ts';
import { piecesOf } from '../bag/recheck/line.ts';
import type { ResolvedPlan, ResolvedStep } from '../plan/resolved.ts';

/** Whole pieces of a thing in a bag. */
export interface InBag {
  bag: string;
  item: string;
  pieces: number;
}

/** A step that cannot be done as planned with what is in the bags. */
export interface StepShort {
  step: string;
  item: string;
  /** Pieces within its reach, and needed: by its slot together where `slot` is given, of gear by all steps up to it. */
  have: number;
  need: number;
  slot?: string;
}

/**
 * Steps of an outing that lose their stack, or gear, with what is truly in the bags.
 *
 * A step reaches its role's own bags and those of no role. Steps of one slot run at once and share the latter. Gear is used by one
 * step after the other, and used up by none of them for the next: each has its own.
 *
 * @param plan - as it was frozen
 * @param answer - the frozen outing, with each step's stack
 * @param inBags - whole pieces, those that lack parts left out
 * @returns each step with the first thing it lacks, in the order of the steps
 */
export function stepsShort(plan: ResolvedPlan, answer: BagOuting, inBags: readonly InBag[]): StepShort[] {
  const steps = plan.steps.filter(({ outing }) => outing === answer.id);
  const pieces = new Map(answer.steps.map((step) => [step.id, piecesOf(step)]));
  const needed = (step: ResolvedStep, item: string): number =>
    (pieces.get(step.id) ?? []).filter((piece) => piece === item).length;
  const within = (item: string, role: string | null): number =>
    inBags.reduce(
      (sum, one) => sum + (one.item === item && (plan.bags.get(one.bag)?.role ?? null) === role ? one.pieces : 0),
      0,
    );
  const stackShort = (step: ResolvedStep): StepShort[] =>
    [...new Set(pieces.get(step.id) ?? [])].flatMap((item) => {
      const [have, need] = [within(item, step.role) + within(item, null), needed(step, item)];
      if (have < need) return [{ step: step.id, item, have, need }];
      const { slot } = step;
      if (slot === null) return [];
      const drawn = slotDraws(steps, slot, { needed: (one) => needed(one, item), own: (role) => within(item, role) });
      const shared = within(item, null);
      return drawn > shared ? [{ step: step.id, item, have: shared, need: drawn, slot }] : [];
    });
  const gear = gearShort(steps, (item) => inBags.reduce((sum, one) => sum + (one.item === item ? one.pieces : 0), 0));
  return steps.flatMap((step) => {
    const [first = gear.get(step.id)] = stackShort(step);
    return first === undefined ? [] : [first];
  });
}

/** What the roles of a slot draw together from bags of no role. */
function slotDraws(
  steps: readonly ResolvedStep[],
  slot: string,
  { needed, own }: { needed: (step: ResolvedStep) => number; own: (role: string) => number },
): number {
  const inSlot = steps.filter((step) => step.slot === slot);
  return [...new Set(inSlot.map(({ role }) => role))].reduce((sum, role) => {
    const most = Math.max(...inSlot.filter((step) => step.role === role).map(needed));
    return sum + Math.max(0, most - own(role));
  }, 0);
}

/** Steps that list gear of which, in their order, there is not enough left. */
function gearShort(steps: readonly ResolvedStep[], packed: (item: string) => number): Map<string, StepShort> {
  const asked = new Map<string, number>();
  const short = new Map<string, StepShort>();
  for (const step of steps)
    for (const { id: item, quantity } of [...step.gear, ...step.moves.filter(({ from }) => from === 'bag')]) {
      const need = (asked.get(item) ?? 0) + quantity;
      asked.set(item, need);
      const have = packed(item);
      if (have < need && !short.has(step.id)) short.set(step.id, { step: step.id, item, have, need });
    }
  return short;
}
