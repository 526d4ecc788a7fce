import type { ResolvedPlan } from '../plan/resolved.ts';
import type { Counts } from './counts.ts';
import { addedUp } from './counts.ts';
import type { OutingAnswer } from './outingAnswer.ts';
import type { OutingWork } from './outingWork.ts';
import { drawsFrom, gearOfStep } from './outingWork.ts';

/**
 * The steps for which an item lies in a bag, in the order of the plan. Gear is there for every step that lists it;
 * a piece for the steps whose chosen stack or hold uses it and who draw on that bag: nobody's bag serves a role
 * only where its own bags hold too few.
 */
export function because(
  plan: ResolvedPlan,
  work: OutingWork,
  answer: OutingAnswer,
): (item: OutingAnswer['contents'][number]) => string[] {
  const uses = new Map<string, Counts>();
  for (const { group, stack, hold } of answer.chosen) {
    for (const step of group.steps) {
      uses.set(step.id, addedUp(hold ? [stack.counts, hold.counts] : [stack.counts]));
    }
  }
  const ownPieces = (role: string, id: string): number =>
    answer.contents.reduce(
      (sum, { item, bag, quantity }) => sum + (item.id === id && bag.role === role ? quantity : 0),
      0,
    );

  return ({ item, bag }) =>
    plan.steps
      .filter((step) => {
        if (step.outing !== work.outing.id) return false;
        if (item.kind === 'gear') return gearOfStep(step).some((gear) => gear.id === item.id);
        const used = uses.get(step.id)?.get(item.id);
        if (used === undefined || !drawsFrom(bag, step.role)) return false;
        return bag.role !== null || used > ownPieces(step.role, item.id);
      })
      .map((step) => step.id);
}
