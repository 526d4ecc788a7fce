import type { Item } from '../../../shared-types/records/item.ts';
import type { TaskRecords } from '../records/planOfTask.ts';
import { readableTask } from '../records/readableTask.ts';
import type { ReadableTask } from '../records/readableTask.ts';
import { stockOfTask } from '../records/stockOfTask.ts';

/** The shelf that a kit lies on while a task is read with it. */
const kitShelf = 'kit';

/**
 * A task as it would be with a kit for its stock: everything that is carried comes from the kit, and only from there. Fasteners and bags stay
 * the task's own, where the kit has none of that code: they are at the site, or hold the kit, and are no part of what turns a fastener.
 *
 * @param records - the task with all that it refers to
 * @param kit - what there is instead of the task's stock; retired entries and a second one of a code are passed over
 * @returns the task as far as it can be read, with what it lacks
 */
export function readWithKit(records: TaskRecords, kit: readonly Item[]): ReadableTask {
  const held = new Map<string, Item>();
  for (const item of kit) if (!item.retired && !held.has(item.code)) held.set(item.code, item);
  for (const item of stockOfTask(records).stock)
    if ((item.kind === 'fastener' || item.kind === 'bag') && !held.has(item.code)) held.set(item.code, item);
  const items = [...held.values()].map((item): Item => ({ ...item, shelf: kitShelf }));
  return readableTask({
    ...records,
    task: { ...records.task, shelves: [kitShelf] },
    shelves: [{ id: kitShelf, rev: 0, name: 'the kit' }],
    items,
  });
}

/**
 * The pieces of an answer as a kit: of each thing the most that any one outing takes along, as the task's stock has it now.
 *
 * @param stock - items of the task's shelves
 * @param outings - what the answer packs, outing by outing
 * @returns the kit, and the codes that no shelf of the task has any more
 */
export function kitOfAnswer(
  stock: readonly Item[],
  outings: readonly { lines: readonly { id: string; quantity: number }[] }[],
): { kit: Item[]; gone: string[] } {
  const most = new Map<string, number>();
  for (const { lines } of outings) {
    const packed = new Map<string, number>();
    for (const { id, quantity } of lines) packed.set(id, (packed.get(id) ?? 0) + quantity);
    for (const [id, quantity] of packed) most.set(id, Math.max(most.get(id) ?? 0, quantity));
  }
  const byCode = new Map(stock.map((item) => [item.code, item]));
  const kit: Item[] = [];
  const gone: string[] = [];
  for (const [code, onHand] of most) {
    const item = byCode.get(code);
    if (item === undefined) gone.push(code);
    else kit.push(item.kind === 'bag' ? item : { ...item, onHand, retired: false });
  }
  return { kit, gone };
}
