import type { ResolvedBag } from '../../plan/resolved.ts';
import { cornersLast } from '../../stack/order.ts';
import type { StackTask } from '../../stack/stackTask.ts';
import type { StackStock } from '../../stack/ways.ts';
import { eachStack, findWays, stockOf } from '../../stack/ways.ts';
import type { Counts } from '../counts.ts';
import { addedUp } from '../counts.ts';
import type { Content } from '../contents.ts';
import type { Choice, StepGroup } from '../outingWork.ts';
import { choiceOf } from '../outingWork.ts';

/** One way to do a step with what is packed. */
export interface Option {
  stack: Choice;
  hold: Choice | null;
  counts: Counts;
  /** Smaller is preferred: parts, then twelve-point openings where six would bear on the flats. */
  parts: number;
  corners: number;
  ids: string;
}

/** How many of each piece lie in the bags of a kind. */
export function supplyOf(contents: readonly Content[], of: (bag: ResolvedBag) => boolean): Map<string, number> {
  const supply = new Map<string, number>();
  for (const { item, bag, quantity } of contents) {
    if (of(bag)) supply.set(item.id, (supply.get(item.id) ?? 0) + quantity);
  }
  return supply;
}

/** Every way to serve a group from a supply, the preferred first: fewest parts, six points where it loosens, ids. */
export function optionsFrom(stock: StackStock, group: StepGroup, supply: Counts): Option[] {
  const there = stockOf(stock, (id) => (supply.get(id) ?? 0) > 0);
  const stacks = packedChoices(there, group.ways.task, supply);
  const holds = group.holds && packedChoices(there, group.holds.task, supply);
  const loosens = group.steps.some(({ action }) => action === 'loosen');
  const options = stacks.flatMap((stack) => {
    if (!holds) return [optionOf(stack, null, loosens)];
    return holds
      .map((hold) => optionOf(stack, hold, loosens))
      .filter(({ counts }) => [...counts].every(([id, count]) => count <= (supply.get(id) ?? 0)));
  });
  return options.toSorted(
    (a, b) => a.parts - b.parts || a.corners - b.corners || (a.ids < b.ids ? -1 : Number(a.ids > b.ids)),
  );
}

function packedChoices(there: StackStock, task: StackTask, supply: Counts): Choice[] {
  return [...eachStack(findWays(there, task))]
    .map(choiceOf)
    .filter(({ counts }) => [...counts].every(([id, count]) => count <= (supply.get(id) ?? 0)));
}

function optionOf(stack: Choice, hold: Choice | null, loosens: boolean): Option {
  const both = hold ? [stack, hold] : [stack];
  return {
    stack,
    hold,
    counts: addedUp(both.map(({ counts }) => counts)),
    parts: both.reduce((sum, { ids }) => sum + ids.length, 0),
    // What holds is pulled against the turning: it bears on the head as what loosens does.
    corners: cornersLast(stack.parts, loosens) + (hold ? cornersLast(hold.parts, true) : 0),
    ids: both.map(({ ids }) => ids.join('\n')).join('\n\n'),
  };
}
