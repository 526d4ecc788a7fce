import type { Highs } from 'highs';
import type { BagOuting, BagResult, BagWishes, Minimised, Tolerance } from '../../../../shared-types/bag.ts';
import type { Outcome, Proven } from '../../../../shared-types/bagReasons.ts';
import type { ResolvedPlan } from '../../plan/resolved.ts';
import { carriedItem, volumeL } from '../measure.ts';
import { planBag } from '../planBag.ts';

/** How the bag was planned; every question asks for the same. */
export interface ReasonsOptions {
  minimise: Minimised;
  tolerance?: Tolerance | undefined;
  wishes?: BagWishes | undefined;
  /** For each question. */
  timeLimitS?: number | undefined;
  solver?: Highs | undefined;
  /** Looked at before each question; true ends the work without a further finding. */
  cancelled?: (() => boolean) | undefined;
}

export const noWishes: BagWishes = { keep: [], forbid: [], spares: [] };

/** Thrown at the next question where the work is no longer wanted. */
export class Cancelled extends Error {
  override readonly name = 'Cancelled';
}

/** Thrown where a question that must be answered to go on was not, in the time it had. */
class OutOfTime extends Error {
  override readonly name = 'OutOfTime';
}

/** One question to the planner, answered. */
export interface Asked {
  outcome: Outcome;
  total: Proven | null;
  result: BagResult;
}

/**
 * Puts a plan to the planner itself: what is said of a bag is what planning again gives.
 *
 * @returns the answer with how sure it is
 * @throws Cancelled where the work is no longer wanted; RefusedError as planBag does
 */
export async function ask(plan: ResolvedPlan, options: ReasonsOptions): Promise<Asked> {
  if (options.cancelled?.()) throw new Cancelled('no longer wanted');
  const { minimise, timeLimitS, solver, tolerance = 'nothing', wishes = noWishes } = options;
  const asking = { minimise, timeLimitS, solver, tolerance, ...wishes };
  const result = await planBag(plan, asking);
  const { status, objective } = result;
  if (status === 'infeasible') return { outcome: 'infeasible', total: null, result };
  // What was not planned to stand a loss is no answer to what standing it costs.
  if (!objective || !stands(result, tolerance)) return { outcome: 'open', total: null, result };
  const total = { value: objective.value, bound: objective.bound };
  return { outcome: status === 'optimal' ? 'proven' : 'stopped', total, result };
}

/**
 * The same where nothing can be concluded from no answer.
 *
 * @throws OutOfTime
 */
export async function askToTheEnd(plan: ResolvedPlan, options: ReasonsOptions): Promise<Asked> {
  const answer = await ask(plan, options);
  if (answer.outcome === 'open') throw new OutOfTime('no answer in the time given');
  return answer;
}

/**
 * Does work that may run out of time; what it found until then stands.
 *
 * @throws whatever the work does, but for OutOfTime
 */
export async function asFarAsTimeGoes(work: () => Promise<void>): Promise<void> {
  try {
    await work();
  } catch (error) {
    if (!(error instanceof OutOfTime)) throw error;
  }
}

function stands(result: BagResult & { tolerance?: Tolerance }, tolerance: Tolerance): boolean {
  return tolerance === (result.tolerance ?? (result.singleLoss ? 'piece' : 'nothing'));
}

/**
 * What one outing of an answer costs, in the objective's own unit.
 *
 *   mass: with the bags that hold something;  count, volume: Σ pieces
 *
 * @returns [kg], [pieces] or [L]
 * @throws Error where a volume is minimised and not given
 * @source rule of the objective of command `bag`
 * @validity answers of planBag
 * @example two sockets and a driver, by count: 3
 */
export function outingCost(plan: ResolvedPlan, outing: BagOuting, minimise: Minimised): number {
  if (minimise === 'mass') return outing.massKg;
  const each = (id: string): number => (minimise === 'count' ? 1 : volumeL(carriedItem(plan.carried, id)));
  return outing.items.reduce((sum, { id, quantity }) => sum + each(id) * quantity, 0);
}

/**
 * The same with what is proven of it. An answer has one bound over all outings; an outing cannot cost less than that
 * bound leaves where every other costs no more than what was found for it.
 */
export function outingTotal(plan: ResolvedPlan, result: BagResult, outing: BagOuting, minimise: Minimised): Proven {
  const value = outingCost(plan, outing, minimise);
  if (result.status === 'optimal' || !result.objective) return { value, bound: value };
  const others = result.outings
    .filter(({ id }) => id !== outing.id)
    .reduce((sum, other) => sum + outingCost(plan, other, minimise), 0);
  return { value, bound: Math.min(value, Math.max(0, exact(result.objective.bound - others))) };
}

/** Sums and differences of masses and volumes to a millionth of a milligram, without the last binary digits. */
export function exact(value: number): number {
  return Math.round(value * 1e12) / 1e12;
}
