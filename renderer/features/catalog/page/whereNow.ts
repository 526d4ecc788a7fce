import type { Item } from '../../../../shared-types/records/item.ts';
import type { RecordOf } from '../../../../shared-types/records/index.ts';
import { inOrder } from '../../../engine/records/inOrder.ts';
import { alikeItems } from '../alike.ts';
import type { CodeHolders, Usage } from '../usage.ts';

export interface WhereLine {
  kind: 'kept' | 'planned' | 'set-down' | 'left';
  words: string;
}

/** Where an item lies, as far as it is known: its place in the store, bags it is planned in, and where steps set it down. */
export function whereNow(
  item: Item,
  usage: Usage,
  { holders, results }: { holders: CodeHolders; results: ReadonlyMap<string, RecordOf<'results'>> },
): WhereLine[] {
  const lines: WhereLine[] = [];
  if (item.keptAt !== undefined) lines.push({ kind: 'kept', words: `kept at ${item.keptAt}` });
  const others = new Set(alikeItems(holders.items).shelvesOf.get(item.code));
  others.delete(item.shelf);
  for (const task of holders.tasks.values()) {
    const answer = results.get(task.id)?.result;
    // A code on two of the task's shelves means neither for sure.
    if (answer === undefined || !task.shelves.includes(item.shelf) || task.shelves.some((key) => others.has(key)))
      continue;
    for (const outing of answer.outings)
      for (const { id, quantity, bag } of outing.items)
        if (id === item.code)
          lines.push({ kind: 'planned', words: `planned: ${quantity} in ${bag}, outing ${outing.id} of ${task.code}` });
    for (const { rule, id, quantity, place, outing } of answer.problems)
      if (rule === 'left-behind' && id === item.code)
        lines.push({
          kind: 'left',
          words: `left behind: ${quantity}${place === undefined ? '' : ` at ${place}`} after outing ${outing} of ${task.code}`,
        });
  }
  for (const task of new Set(usage.steps.map((one) => one.task))) {
    const places = new Map(task.places.map((place) => [place.id, place.name ?? place.id]));
    const steps = inOrder(usage.steps.filter((one) => one.task === task).map(({ step }) => step));
    for (const { code, moves = [] } of steps)
      for (const { id, quantity, to } of moves) {
        const place = places.get(to);
        if (id === item.code && place !== undefined)
          lines.push({ kind: 'set-down', words: `set down: ${quantity} at ${place} by step ${code} of ${task.code}` });
      }
  }
  return lines;
}
