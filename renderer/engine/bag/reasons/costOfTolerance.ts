import type { BagResult, Infeasibility, Tolerance } from '../../../../shared-types/bag.ts';
import type { LossReason, Outcome, Proven, StepConflict, TolerancePoint } from '../../../../shared-types/bagReasons.ts';
import type { ResolvedPlan } from '../../plan/resolved.ts';
import { objectiveUnit } from '../measure.ts';
import type { ReasonsOptions } from './ask.ts';
import { ask, exact, noWishes, outingTotal } from './ask.ts';
import { oneOuting, wishesOn } from './derived.ts';
import { faultsOf } from './faults/faultsOf.ts';

const tolerances: readonly Tolerance[] = ['nothing', 'piece', 'bag'];

/**
 * What it costs that nothing, any one piece or any one bag may be lost: each planned again, outing by outing and in
 * sum; where it is not possible, which steps or limits stop it. The point that was planned already is taken from its
 * answer.
 */
export async function* costOfTolerance(
  plan: ResolvedPlan,
  result: BagResult,
  options: ReasonsOptions,
): AsyncGenerator<TolerancePoint> {
  for (const tolerance of tolerances) {
    const planned = result.objective && tolerance === (options.tolerance ?? 'nothing') ? result : null;
    const outings = planned
      ? plannedOutings(plan, planned, options)
      : await outingsWith(plan, { ...options, tolerance });
    // Gear that is used up runs out over all outings together, whatever may be lost.
    const shared = result.objective ? [] : (await ask(plan, { ...options, tolerance })).result.infeasible;
    yield pointOf({ tolerance, outings, shared }, options);
  }
}

/** One outing's part of a point. */
interface OutingPoint {
  id: string;
  outcome: Outcome;
  total: Proven | null;
  infeasible: Infeasibility[];
  conflicts: StepConflict[];
  losses: LossReason[];
}

function plannedOutings(plan: ResolvedPlan, result: BagResult, { minimise }: ReasonsOptions): OutingPoint[] {
  return result.outings.map((outing) => {
    const total = outingTotal(plan, result, outing, minimise);
    const outcome = total.bound < total.value ? 'stopped' : 'proven';
    return { id: outing.id, outcome, total, infeasible: [], conflicts: [], losses: [] };
  });
}

async function outingsWith(plan: ResolvedPlan, options: ReasonsOptions): Promise<OutingPoint[]> {
  const points: OutingPoint[] = [];
  for (const { id } of plan.outings) {
    const wishes = wishesOn(options.wishes ?? noWishes, id);
    const { outcome, total, result } = await ask(oneOuting(plan, id), { ...options, wishes });
    const faults = outcome === 'infeasible' ? await faultsOf(plan, id, options) : { conflicts: [], losses: [] };
    points.push({ id, outcome, total, infeasible: result.infeasible, ...faults });
  }
  return points;
}

function pointOf(
  { tolerance, outings, shared }: { tolerance: Tolerance; outings: OutingPoint[]; shared: Infeasibility[] },
  { minimise }: ReasonsOptions,
): TolerancePoint {
  const stoppedBy = shared.length > 0 ? shared : outings.flatMap(({ infeasible }) => infeasible);
  const outcome = stoppedBy.length > 0 ? 'infeasible' : worst(outings.map((one) => one.outcome));
  const totals = outings.flatMap(({ total }) => total ?? []);
  const sum = (of: (total: Proven) => number): number => exact(totals.reduce((all, total) => all + of(total), 0));
  const possible = outcome === 'proven' || outcome === 'stopped';
  return {
    tolerance,
    outcome,
    unit: objectiveUnit[minimise],
    total: possible ? { value: sum(({ value }) => value), bound: sum(({ bound }) => bound) } : null,
    outings: outings.map(({ id, outcome: how, total }) => ({ id, outcome: how, total })),
    stoppedBy,
    conflicts: outings.flatMap(({ conflicts }) => conflicts),
    losses: outings.flatMap(({ losses }) => losses),
  };
}

const fromWorst: readonly Outcome[] = ['infeasible', 'open', 'stopped'];

function worst(outcomes: readonly Outcome[]): Outcome {
  return fromWorst.find((one) => outcomes.includes(one)) ?? 'proven';
}
