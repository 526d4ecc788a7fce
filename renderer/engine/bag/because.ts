import type { Content } from './contents.ts';
import type { OutingAnswer } from './outingAnswer.ts';
import type { OutingWork } from './outingWork.ts';
import { drawsFrom, gearOfStep } from './outingWork.ts';
import type { Counts } from './counts.ts';
import { addedUp } from './counts.ts';
import { protectedSteps, usesOf } from './settle/afterLoss.ts';

/**
 * The steps for which an item lies in a bag, in the order of the plan. Gear is there for every step that lists it;
 * a piece for the steps whose chosen stack or hold uses it and who draw on that bag: nobody's bag serves a role
 * only where its own bags hold too few. A spare that no chosen stack uses is there for the steps that would use it
 * after a loss.
 */
export function because(work: OutingWork, answer: OutingAnswer): (line: Content) => string[] {
  const uses = new Map<string, Counts>([...answer.chosen].map(([id, one]) => [id, addedUp(usesOf(one))]));
  const spares = protectedSteps(work, answer);
  const ownPieces = (role: string, id: string): number =>
    answer.contents.reduce(
      (sum, { item, bag, quantity }) => sum + (item.id === id && bag.role === role ? quantity : 0),
      0,
    );
  const inUse = ({ item, bag }: Content): string[] =>
    work.steps
      .filter((step) => {
        if (item.kind === 'gear') return gearOfStep(step).some((gear) => gear.id === item.id);
        const used = uses.get(step.id)?.get(item.id);
        if (used === undefined || !drawsFrom(bag, step.role)) return false;
        return bag.role !== null || used > ownPieces(step.role, item.id);
      })
      .map((step) => step.id);
  return (line) => {
    const steps = inUse(line);
    if (steps.length > 0 || line.item.kind === 'gear') return steps;
    const spare = spares.get(line.item.id) ?? new Set();
    return work.steps.map(({ id }) => id).filter((id) => spare.has(id) || (uses.get(id)?.has(line.item.id) ?? false));
  };
}
