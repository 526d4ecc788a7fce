import type { Item, Shelf } from '../../../shared-types/records/item.ts';
import type { Interface } from '../../../shared-types/records/site.ts';
import type { Task, TaskStep } from '../../../shared-types/records/task.ts';
import { RefusedError } from '../errors.ts';
import type { Way } from '../stack/otherWay.ts';
import { readThread } from '../thread/index.ts';
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

export interface StockRecords {
  task: Task;
  shelves: readonly Shelf[];
  items: readonly Item[];
  steps: readonly TaskStep[];
  interfaces: readonly Interface[];
}

/**
 * The live items of a task's shelves, in order of its shelves, and what of them no plan can use.
 *
 * The planner does not ask which way a torque tool measures. One that measures to one side alone is left out where every step of the
 * task that tightens does so to the other side, and it may not loosen: it could do nothing but harm. Where steps tighten to both sides it stays,
 * since it is right for some of them, and a bag that has it for another says so (`otherWay`).
 *
 * @returns the items that the plan is made with, and each of the others with why it is not
 */
export function stockOfTask(records: StockRecords): { stock: Item[]; leftOut: LeftOut[] } {
  const { task, shelves, items } = records;
  const ordered = task.shelves.flatMap((key) => inOrder(items.filter(({ shelf }) => shelf === key)));
  const live = ordered.filter(({ retired }) => !retired);
  const byCode = new Map<string, Item[]>();
  for (const item of live) byCode.set(item.code, [...(byCode.get(item.code) ?? []), item]);
  const ways = waysTightened(records, live);
  const stock: Item[] = [];
  const leftOut: LeftOut[] = [];
  for (const item of ordered) {
    const same = byCode.get(item.code) ?? [];
    const clash = !item.retired && same.length > 1 ? clashReason(item, same, shelves) : null;
    const reason = clash ?? reasonOf(item) ?? otherWayReason(item, ways);
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

function otherWayReason(item: Item, ways: ReadonlySet<Way> | null): string | null {
  if (item.kind !== 'torque-tool' || item.loosens === true || ways === null || ways.size === 0) return null;
  const { direction } = item;
  if (direction === undefined || direction === 'both' || ways.has(direction)) return null;
  return `it measures to the ${direction} alone, and every step that tightens does so to the ${direction === 'left' ? 'right' : 'left'}`;
}

/** To which sides the task's steps tighten; null where a thread cannot be read, so that nobody knows. */
function waysTightened({ task, steps, interfaces }: StockRecords, live: readonly Item[]): ReadonlySet<Way> | null {
  const threads = new Map(live.flatMap((item) => (item.kind === 'fastener' ? [[item.code, item.thread]] : [])));
  const fastenerAt = new Map(interfaces.map(({ id, fastener }) => [id, fastener]));
  const ways = new Set<Way>();
  for (const step of steps) {
    if (step.task !== task.id || step.action !== 'tighten') continue;
    const thread = threads.get(step.fastener ?? fastenerAt.get(step.interface ?? '') ?? '');
    const hand = thread === undefined ? null : handOf(thread);
    if (hand === null) return null;
    ways.add(hand);
  }
  return ways;
}

function handOf(thread: string): Way | null {
  try {
    return readThread(thread).hand;
  } catch (error) {
    if (error instanceof RefusedError) return null;
    throw error;
  }
}

/** Two things under one name: the planner could not say which of them it means. */
function clashReason(item: Item, same: readonly Item[], shelves: readonly Shelf[]): string {
  const names = same.map(({ shelf }) => shelves.find(({ id }) => id === shelf)?.name ?? 'a shelf that is not kept');
  const where = new Set(names).size === 1 ? `${same.length} times on ${names[0]}` : `on ${names.join(' and on ')}`;
  return `the code "${item.code}" is ${where}: a task’s shelves must not share a code. Change one of them, or take a shelf off the task.`;
}
