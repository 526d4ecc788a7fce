import type { BagResult } from '../../../../shared-types/bag.ts';
import type { BagReasons, ReasonFound, ReasonPart } from '../../../../shared-types/bagReasons.ts';
import type { ResolvedPlan } from '../../plan/resolved.ts';
import type { ReasonsOptions } from './ask.ts';
import { Cancelled, noWishes } from './ask.ts';
import { bindingLimits } from './bindingLimits.ts';
import { costOfTolerance } from './costOfTolerance.ts';
import { faultsOf } from './faults/faultsOf.ts';
import { usedUpBeyondStock } from './faults/usedUp.ts';
import { withoutItems } from './withoutItem.ts';

/** All of them, in the order in which a reader wants them. */
const reasonParts: readonly ReasonPart[] = ['faults', 'without', 'tolerance', 'limits'];

/**
 * The reasons of an answer, each as soon as it is found, in the same order every time. What is found is what the
 * planner gives when it is asked again; between findings the work can be given up.
 *
 * @param result - the answer of planBag to this plan with these options
 * @returns findings as they are asked for; none after the work was given up
 * @throws RefusedError as planBag does
 */
export async function* findReasons(
  plan: ResolvedPlan,
  result: BagResult,
  options: ReasonsOptions,
  parts: readonly ReasonPart[] = reasonParts,
): AsyncGenerator<ReasonFound> {
  try {
    for (const part of parts) yield* partOf[part](plan, result, options);
  } catch (error) {
    if (!(error instanceof Cancelled)) throw error;
  }
}

type FindPart = (plan: ResolvedPlan, result: BagResult, options: ReasonsOptions) => AsyncGenerator<ReasonFound>;

const partOf: Record<ReasonPart, FindPart> = {
  faults: async function* faults(plan, result, options) {
    if (result.objective) return;
    const solved = new Set(result.outings.map(({ id }) => id));
    for (const { id } of plan.outings) {
      if (solved.has(id)) continue;
      const { losses, conflicts } = await faultsOf(plan, id, options);
      for (const found of losses) yield { kind: 'loss', found };
      for (const found of conflicts) yield { kind: 'conflict', found };
    }
    const { tolerance = 'nothing', wishes = noWishes } = options;
    for (const found of usedUpBeyondStock(plan, tolerance, wishes)) yield { kind: 'conflict', found };
  },
  without: async function* without(plan, result, options) {
    for await (const found of withoutItems(plan, result, options)) yield { kind: 'without', found };
  },
  tolerance: async function* tolerance(plan, result, options) {
    for await (const found of costOfTolerance(plan, result, options)) yield { kind: 'tolerance', found };
  },
  limits: bindingLimits,
};

/** All reasons of an answer at once. */
export async function bagReasons(
  plan: ResolvedPlan,
  result: BagResult,
  options: ReasonsOptions,
  parts?: readonly ReasonPart[],
): Promise<BagReasons> {
  const reasons = noReasons();
  for await (const reason of findReasons(plan, result, options, parts)) addReason(reasons, reason);
  return reasons;
}

/** No findings yet. */
export function noReasons(): BagReasons {
  return { without: [], tolerance: [], limits: [], limitsTogether: [], conflicts: [], losses: [] };
}

/** Puts a finding where it belongs. */
export function addReason(reasons: BagReasons, reason: ReasonFound): void {
  if (reason.kind === 'without') reasons.without.push(reason.found);
  else if (reason.kind === 'tolerance') reasons.tolerance.push(reason.found);
  else if (reason.kind === 'limit') reasons.limits.push(reason.found);
  else if (reason.kind === 'limitsTogether') reasons.limitsTogether.push(reason.found);
  else if (reason.kind === 'conflict') reasons.conflicts.push(reason.found);
  else reasons.losses.push(reason.found);
}
