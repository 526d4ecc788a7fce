import type { BagResult } from '../../../../shared-types/bag.ts';
import type { BagReasons, ReasonFound, ReasonPart } from '../../../../shared-types/bagReasons.ts';
import type { ResolvedPlan } from '../../plan/resolved.ts';
import type { ReasonsOptions } from './ask.ts';
import { Cancelled, noWishes } from './ask.ts';
import { bindingLimits } from './bindingLimits.ts';
import { costOfTolerance } from './costOfTolerance.ts';
import { faultsOf } from './faults/faultsOf.ts';
import { usedUpBeyondStock } from './faults/usedUp.ts';
import { packedLines, withoutLine } from './withoutItem.ts';
import type { PackedLine } from './withoutItem.ts';

/** All of them, in the order in which a reader wants them. */
const reasonParts: readonly ReasonPart[] = ['faults', 'without', 'tolerance', 'limits'];

/** The line that somebody looks at: what happens without it is found before anything else. Looked at between findings. */
export type LineLookedAt = () => PackedLine | null;

/**
 * The reasons of an answer, each as soon as it is found, in the same order every time but for what is looked at. What is
 * found is what the planner gives when it is asked again; between findings the work can be given up.
 *
 * @param result - the answer of planBag to this plan with these options
 * @param lookedAt - absent: items are answered in the order of the catalog
 * @returns findings as they are asked for; none after the work was given up
 * @throws RefusedError as planBag does
 */
export async function* findReasons(
  plan: ResolvedPlan,
  result: BagResult,
  options: ReasonsOptions,
  parts: readonly ReasonPart[] = reasonParts,
  lookedAt: LineLookedAt = () => null,
): AsyncGenerator<ReasonFound> {
  const open = parts.includes('without') ? packedLines(plan, result) : [];
  const take = ({ outing, id }: PackedLine): PackedLine[] => {
    const at = open.findIndex((line) => line.outing === outing && line.id === id);
    return at < 0 ? [] : open.splice(at, 1);
  };
  async function* first(): AsyncGenerator<ReasonFound> {
    for (let line = lookedAt(); line !== null; line = lookedAt()) {
      const [taken] = take(line);
      if (taken === undefined) return;
      yield* without(plan, result, taken, options);
    }
  }
  try {
    for (const part of parts) {
      if (part === 'without') {
        while (open.length > 0) {
          yield* first();
          for (const next of open.splice(0, 1)) yield* without(plan, result, next, options);
        }
        continue;
      }
      yield* first();
      for await (const reason of partOf[part](plan, result, options)) {
        yield reason;
        yield* first();
      }
    }
  } catch (error) {
    if (!(error instanceof Cancelled)) throw error;
  }
}

async function* without(
  plan: ResolvedPlan,
  result: BagResult,
  line: PackedLine,
  options: ReasonsOptions,
): AsyncGenerator<ReasonFound> {
  for await (const found of withoutLine(plan, result, line, options)) yield { kind: 'without', found };
}

type FindPart = (plan: ResolvedPlan, result: BagResult, options: ReasonsOptions) => AsyncGenerator<ReasonFound>;

const partOf: Record<Exclude<ReasonPart, 'without'>, FindPart> = {
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
