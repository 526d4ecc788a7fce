import type { BagOuting } from '../../../../shared-types/bag.ts';

/** A line that the next manifest has otherwise: so many before, so many after. */
export interface LineChange {
  bag: string;
  item: string;
  before: number;
  after: number;
}

/** Lines of an outing that differ between two answers, by bag and item. */
export function lineChanges(before: BagOuting, after: BagOuting): LineChange[] {
  const changes = new Map<string, LineChange>();
  const of = ({ bag, id }: BagOuting['items'][number]): LineChange => {
    const key = JSON.stringify([bag, id]);
    const held = changes.get(key) ?? { bag, item: id, before: 0, after: 0 };
    changes.set(key, held);
    return held;
  };
  for (const item of before.items) of(item).before += item.quantity;
  for (const item of after.items) of(item).after += item.quantity;
  return [...changes.values()].filter((change) => change.before !== change.after);
}

/** Steps whose stack, hold or setting is another one. */
export function stepChanges(before: BagOuting, after: BagOuting): { step: string; before: string; after: string }[] {
  const words = ({ stack, hold, setting }: BagOuting['steps'][number]): string =>
    [
      stack.join(' + '),
      ...(hold === null ? [] : [`held with ${hold.join(' + ')}`]),
      ...(setting === null ? [] : [`set ${setting.value} ${setting.unit}`]),
    ].join(', ');
  const was = new Map(before.steps.map((step) => [step.id, words(step)]));
  return after.steps.flatMap((step) => {
    const [held, now] = [was.get(step.id) ?? '', words(step)];
    return held === now ? [] : [{ step: step.id, before: held, after: now }];
  });
}
