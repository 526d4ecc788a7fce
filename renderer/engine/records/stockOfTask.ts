import type { Item, Shelf } from '../../../shared-types/records/item.ts';
import type { Task } from '../../../shared-types/records/task.ts';
import { inOrder } from './inOrder.ts';
import { planEntryOf } from './planEntries.ts';

/** A record that is no part of the plan, and why. */
export interface LeftOut {
  table: 'items';
  id: string;
  code: string;
  reason: string;
  /** Something to mend before a bag is planned; otherwise it is left out by a rule of the planner. */
  isFault: boolean;
}

/** The live items of a task's shelves, in order of its shelves, and what of them no plan can use. */
export function stockOfTask(records: { task: Task; shelves: readonly Shelf[]; items: readonly Item[] }): {
  stock: Item[];
  leftOut: LeftOut[];
} {
  const { task, shelves, items } = records;
  const ordered = task.shelves.flatMap((key) => inOrder(items.filter(({ shelf }) => shelf === key)));
  const live = ordered.filter(({ retired }) => !retired);
  const byCode = new Map<string, Item[]>();
  for (const item of live) byCode.set(item.code, [...(byCode.get(item.code) ?? []), item]);
  const stock: Item[] = [];
  const leftOut: LeftOut[] = [];
  for (const item of ordered) {
    const same = byCode.get(item.code) ?? [];
    const clash = !item.retired && same.length > 1 ? clashReason(item, same, shelves) : null;
    const reason = clash ?? reasonOf(item);
    if (reason === null) stock.push(item);
    else leftOut.push({ table: 'items', id: item.id, code: item.code, reason, isFault: clash !== null });
  }
  return { stock, leftOut };
}

function reasonOf(item: Item): string | null {
  if (item.retired) return 'retired';
  if (planEntryOf(item) !== null) return null;
  return item.kind === 'extension'
    ? 'an offset head: stacks are planned without one, since it changes the torque that is applied'
    : 'its accuracy is known of full scale only: the planner’s rule speaks of the reading';
}

/** Two things under one name: the planner could not say which of them it means. */
function clashReason(item: Item, same: readonly Item[], shelves: readonly Shelf[]): string {
  const names = same.map(({ shelf }) => shelves.find(({ id }) => id === shelf)?.name ?? 'a shelf that is not kept');
  const where = new Set(names).size === 1 ? `${same.length} times on ${names[0]}` : `on ${names.join(' and on ')}`;
  return `the code "${item.code}" is ${where}: a task’s shelves must not share a code. Change one of them, or take a shelf off the task.`;
}
