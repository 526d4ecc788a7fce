import type { BagOuting } from '../../../../shared-types/bag.ts';
import type { CourseProblem, OrderFigures, OrderProposal } from '../../../../shared-types/outing.ts';
import type { ResolvedOuting, ResolvedPlan } from '../../plan/resolved.ts';
import { scheduleOf } from '../clock.ts';
import { planProblems } from '../planProblems.ts';
import { followPieces } from '../ledger/ledger.ts';
import { blocksOf, type Block } from './blocks.ts';
import { costOf, exactOrder, looseAtStart, searchedOrder, type Aim } from './orderSearch.ts';

const aims: readonly Aim[] = ['tool-changes', 'loose-pieces'];
const seed = 1;
const triesPerBlock = 400;

/**
 * Orders of an outing's steps with fewer tool changes, or with fewer loose pieces at once, where the plan's own order leaves
 * room: for steps with `after`. Proposed, never imposed; an order that brings a problem the listed one has not is left out.
 *
 *   tool changes: how often a role lays one string of parts away for another; loose pieces: fasteners and washers out of
 *   their holes, units at places that are not final
 *
 * @param outings - the planned bags: they say which strings the steps use
 * @param problems - what the ledger of the listed order tells
 * @returns at most one order for each aim, with its figures before and after
 * @throws nothing
 * @source the project’s own count of changes and loose pieces; exact over all orders up to 12 steps (or slots) whose place is open, seeded local search beyond
 * @validity strings as the bag was planned: another order may allow other stacks, which are not looked for
 * @example two screws of one size with another between them, all free: the two after each other, one change less
 */
export function orderProposals(
  plan: ResolvedPlan,
  outings: readonly BagOuting[],
  outing: ResolvedOuting,
  problems: readonly CourseProblem[] = followPieces(plan, outings, { withRows: false }).ledger.problems,
): OrderProposal[] {
  const steps = plan.steps.filter((step) => step.outing === outing.id);
  const answer = outings.find(({ id }) => id === outing.id) ?? null;
  const blocks = blocksOf(plan, steps, answer);
  if (!blocks.some(({ free }) => free)) return [];
  const start = looseAtStart(blocks);
  const listed = blocks.map((_, index) => index);
  const before = figures(blocks, listed, start);
  const troubles = troublesOf(plan, problems);
  return aims.flatMap((aim): OrderProposal[] => {
    const exact = exactOrder(blocks, aim, start);
    const tries = triesPerBlock * blocks.length;
    const order = exact ?? searchedOrder(blocks, aim, { start, seed, tries });
    const after = figures(blocks, order, start);
    const gains = aim === 'tool-changes' ? before.toolChanges - after.toolChanges : before.loosePeak - after.loosePeak;
    if (gains <= 0) return [];
    const ids = order.flatMap((index) => blocks[index]?.steps.map(({ id }) => id) ?? []);
    const tried = reordered(plan, outing, ids);
    const { ledger } = followPieces(tried, outings, { withRows: false });
    if (troublesOf(tried, ledger.problems) > troubles) return [];
    return [{ aim, order: ids, before, after, how: exact === null ? 'search' : 'exact' }];
  });
}

function figures(blocks: readonly Block[], order: readonly number[], start: number): OrderFigures {
  const { toolChanges, loosePeak } = costOf(blocks, order, start);
  const steps = order.flatMap((index) => blocks[index]?.steps ?? []);
  return { toolChanges, loosePeak, endMin: scheduleOf(steps).endMin };
}

/** Everything that is wrong with a plan's course, in numbers. */
function troublesOf(plan: ResolvedPlan, problems: readonly CourseProblem[]): number {
  const pieces = problems.reduce((sum, { quantity }) => sum + quantity, 0);
  return planProblems(plan).reduce((sum, { quantity }) => sum + quantity, pieces);
}

/** The plan with one outing's steps in another order. */
export function reordered(plan: ResolvedPlan, outing: ResolvedOuting, ids: readonly string[]): ResolvedPlan {
  const byId = new Map(plan.steps.map((step) => [step.id, step]));
  const inOrder = ids.values();
  const steps = plan.steps.map((step) => {
    if (step.outing !== outing.id) return step;
    return byId.get(inOrder.next().value ?? '') ?? step;
  });
  return { ...plan, steps };
}
