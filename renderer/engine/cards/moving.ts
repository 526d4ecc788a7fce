import type { BagOuting } from '../../../shared-types/bag.ts';
import type { ResolvedPlan, ResolvedStep } from '../plan/resolved.ts';
import type { CardLine } from './card.ts';
import { countText, itemText, placeText } from './words.ts';

/** In which bags an item was packed, by name. */
export function bagsOf(plan: ResolvedPlan, outing: BagOuting | undefined, ids: readonly string[]): string {
  const bags = new Set(outing?.items.filter(({ id }) => ids.includes(id)).map(({ bag }) => bag) ?? []);
  if (bags.size === 0) return 'no bag planned';
  return [...bags].map((id) => placeText(plan, id)).join(', ');
}

/** Gear that is used, things that change their place, fasteners that are put in or taken out: a line for each. */
export function gearLines(plan: ResolvedPlan, step: ResolvedStep, outing: BagOuting | undefined): CardLine[] {
  return step.gear.map(({ id, quantity }) => ({
    kind: 'gear',
    reach: `${itemText(plan, id)} in hand`,
    where: `from ${bagsOf(plan, outing, [id])}`,
    count: countText(quantity, 'piece'),
    value: { kind: 'words', text: plan.gear.get(id)?.consumed === true ? 'used up here' : `${quantity} taken` },
  }));
}

/** What is picked up, left and brought back beside the stack. */
export function moveLines(plan: ResolvedPlan, step: ResolvedStep): CardLine[] {
  const moved = step.moves.map(({ id, quantity, from, to }): CardLine => {
    const [verb, kind] =
      to === 'bag' ? (['back in the bag', 'back'] as const) : ([`left at ${placeText(plan, to)}`, 'move'] as const);
    return {
      kind,
      reach: `${itemText(plan, id)} ${verb}`,
      where: `from ${placeText(plan, from)} to ${placeText(plan, to)}`,
      count: countText(quantity, 'piece'),
      value: { kind: 'words', text: `${quantity} there` },
    };
  });
  const fasteners = step.fastenerMoves.map(({ id, quantity, washers, from, to }): CardLine => {
    const of = washers === 0 ? itemText(plan, id) : `${itemText(plan, id)} with ${countText(washers, 'washer')}`;
    const place = to === null ? 'a place the task does not name' : placeText(plan, to);
    return {
      kind: 'move',
      reach: to === 'site' ? `${of} in place` : `${of} put away, none loose`,
      where: `from ${placeText(plan, from)} to ${place}`,
      count: countText(quantity + washers, 'piece'),
      value: { kind: 'words', text: `${quantity} there` },
    };
  });
  return [...moved, ...fasteners];
}
