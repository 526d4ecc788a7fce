import type { Counts } from '../counts.ts';
import { addedUp } from '../counts.ts';
import type { Content } from '../contents.ts';
import type { OutingAnswer } from '../outingAnswer.ts';
import type { OutingWork, StepGroup } from '../outingWork.ts';
import type { Option } from './options.ts';
import { optionsFrom, supplyOf } from './options.ts';

const anyBag = (): boolean => true;

/** What is left of some contents after each loss that the outing is to stand. */
function* losses({ tolerance }: OutingWork, contents: readonly Content[]): Generator<Counts> {
  if (tolerance === 'bag') {
    for (const lost of new Set(contents.map(({ bag }) => bag))) yield supplyOf(contents, (bag) => bag !== lost);
  }
  if (tolerance !== 'piece') return;
  const all = supplyOf(contents, anyBag);
  for (const item of new Set(contents.filter((line) => line.item.kind !== 'gear').map((line) => line.item))) {
    yield new Map(all).set(item.id, (all.get(item.id) ?? 0) - 1);
  }
}

/** Whether every step still has a stack, in anybody's hand, after any loss that is to be stood. */
export function standsLoss(work: OutingWork, contents: readonly Content[]): boolean {
  for (const left of losses(work, contents)) {
    if (work.groups.some((group) => optionsFrom(work.stock, group, left).length === 0)) return false;
  }
  return true;
}

/**
 * For each item, the steps that would use it in place of something lost and do not use it otherwise: what a spare is
 * there for. A step whose own stack is not touched by a loss keeps it; else it takes the stack it prefers of what is
 * left.
 */
export function protectedSteps(work: OutingWork, { contents, chosen }: OutingAnswer): Map<string, Set<string>> {
  const steps = new Map<string, Set<string>>();
  for (const left of losses(work, contents)) {
    const instead = new Map<StepGroup, Option | undefined>();
    for (const group of work.groups) {
      for (const step of group.steps) {
        const own = addedUp(usesOf(chosen.get(step.id)));
        if ([...own].every(([id, count]) => count <= (left.get(id) ?? 0))) continue;
        if (!instead.has(group)) instead.set(group, optionsFrom(work.stock, group, left)[0]);
        for (const id of instead.get(group)?.counts.keys() ?? []) {
          if (own.has(id)) continue;
          const known = steps.get(id) ?? new Set<string>();
          known.add(step.id);
          steps.set(id, known);
        }
      }
    }
  }
  return steps;
}

type Chosen = OutingAnswer['chosen'] extends ReadonlyMap<string, infer C> ? C : never;

/** What a step's stack and its hold use. */
export function usesOf(chosen: Chosen | undefined): Counts[] {
  if (!chosen) return [];
  return chosen.hold ? [chosen.stack.counts, chosen.hold.counts] : [chosen.stack.counts];
}
