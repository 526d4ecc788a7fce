import type { BagOuting } from '../../../shared-types/bag.ts';
import type { CourseResult, OutingCourse, PieceWay } from '../../../shared-types/outing.ts';
import type { ResolvedOuting, ResolvedPlan } from '../plan/resolved.ts';
import { outingClock } from './clock.ts';
import { finishingChance, samplesUsual, seedUsual } from './finishing.ts';
import { followPieces, type Followed } from './ledger/ledger.ts';
import { ledgerFaults } from './ledger/ledgerFaults.ts';
import { orderProposals } from './proposals/orders.ts';
import { swapProposals } from './proposals/swaps.ts';

/**
 * How the outings of a plan run with their planned bags: clock, ledger, chance, proposals. It changes nothing in the bag and
 * judges no plan.
 *
 * @param outings - the planned bags; an outing without one has its gear followed alone
 * @returns what command `bag` adds as `course`
 * @throws nothing
 */
export function courseOf(plan: ResolvedPlan, outings: readonly BagOuting[]): CourseResult {
  const { ledger, ways } = followPieces(plan, outings);
  return {
    outings: plan.outings.map((outing) => outingCourse(plan, outings, outing, ledger)),
    ways: ways.filter(leavesTheBag),
    assumptions: ledger.assumptions,
    recount: ledgerFaults(plan, outings, ledger),
  };
}

function outingCourse(
  plan: ResolvedPlan,
  outings: readonly BagOuting[],
  outing: ResolvedOuting,
  ledger: Followed['ledger'],
): OutingCourse {
  return {
    outing: outing.id,
    clock: outingClock(plan, outing),
    needs: ledger.needs.filter((need) => need.outing === outing.id),
    problems: ledger.problems.filter((problem) => problem.outing === outing.id),
    chance: finishingChance(plan, outing, { seed: seedUsual, samples: samplesUsual }),
    orders: orderProposals(plan, outings, outing, ledger.problems),
    swaps: swapProposals(plan, outings, outing, ledger.problems),
  };
}

/** A piece whose way is more than out of a bag and back. */
function leavesTheBag({ kind, intervals }: PieceWay): boolean {
  const lies = intervals.some(({ where }) => where.at === 'place' || where.at === 'nowhere');
  const moves = (kind === 'fastener' || kind === 'washer') && intervals.some(({ where }) => where.at !== 'site');
  const kept = intervals.some(({ where, from, to }) => where.at === 'hand' && from.moment === 'done' && to !== null);
  return lies || moves || kept;
}
