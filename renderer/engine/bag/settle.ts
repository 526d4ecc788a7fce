import { byIds, cornersLast } from '../stack/order.ts';
import type { Counts } from './counts.ts';
import { addedUp } from './counts.ts';
import type { OutingAnswer } from './outingAnswer.ts';
import type { Choice, StepGroup } from './outingWork.ts';

type Chosen = OutingAnswer['chosen'][number];
type Contents = OutingAnswer['contents'];

/**
 * Makes the one answer of several equal ones. What is packed stays or shrinks, so the objective never grows:
 * each step takes, of the stacks that lie in its bags, the one of fewest parts, six points before twelve where it
 * loosens (they bear on the flats), then by ids; and a piece that nobody needs any more is left at home.
 * Steps of a slot keep the stacks that were solved together.
 */
export function settle(answer: OutingAnswer): OutingAnswer {
  const chosen = answer.chosen.map((choice) =>
    choice.group.slot === null ? (simplest(choice.group, answer.contents) ?? choice) : choice,
  );
  return { chosen, contents: withoutIdlePieces(answer.contents, chosen) };
}

function simplest(group: StepGroup, contents: Contents): Chosen | null {
  const available = (id: string): number => supply(contents, id, group.role) + supply(contents, id, null);
  for (const stack of inPreference(group.stacks, group)) {
    if (!group.holds) {
      if (covers(available, [stack])) return { group, stack, hold: null };
      continue;
    }
    const hold = inPreference(group.holds, group).find((candidate) => covers(available, [stack, candidate]));
    if (hold) return { group, stack, hold };
  }
  return null;
}

function inPreference(choices: readonly Choice[], { steps }: StepGroup): Choice[] {
  const loosens = steps.some(({ action }) => action === 'loosen');
  return byIds(choices, ({ ids }) => ids).toSorted(
    (a, b) => a.ids.length - b.ids.length || cornersLast(a.parts, loosens) - cornersLast(b.parts, loosens),
  );
}

function covers(available: (id: string) => number, choices: readonly Choice[]): boolean {
  return [...added(choices)].every(([id, count]) => count <= available(id));
}

function added(choices: readonly Choice[]): Counts {
  return addedUp(choices.map(({ counts }) => counts));
}

function withoutIdlePieces(contents: Contents, chosen: readonly Chosen[]): Contents {
  let kept = contents;
  for (const line of contents) {
    if (line.item.kind === 'gear') continue;
    for (let fewer = line.quantity - 1; fewer >= 0; fewer -= 1) {
      const next = kept.map((l) => (l.item === line.item && l.bag === line.bag ? { ...l, quantity: fewer } : l));
      if (!serve(next, chosen, line.item.id)) break;
      kept = next;
    }
  }
  return kept.filter(({ quantity }) => quantity > 0);
}

/** Whether the bags hold enough of one piece for every step, and for the roles of each slot together. */
function serve(contents: Contents, chosen: readonly Chosen[], id: string): boolean {
  const shared = supply(contents, id, null);
  const drawn = new Map<string | null, Map<string, number>>();
  for (const { group, stack, hold } of chosen) {
    const need = added(hold ? [stack, hold] : [stack]).get(id) ?? 0;
    const draw = Math.max(0, need - supply(contents, id, group.role));
    if (draw > shared) return false;
    if (group.slot === null) continue;
    const roles = drawn.get(group.slot) ?? new Map<string, number>();
    roles.set(group.role, Math.max(roles.get(group.role) ?? 0, draw));
    drawn.set(group.slot, roles);
  }
  return [...drawn.values()].every((roles) => [...roles.values()].reduce((sum, draw) => sum + draw, 0) <= shared);
}

function supply(contents: Contents, id: string, role: string | null): number {
  return contents.reduce(
    (sum, { item, bag, quantity }) => sum + (item.id === id && bag.role === role ? quantity : 0),
    0,
  );
}
