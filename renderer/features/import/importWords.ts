import type { Comparison, Differing } from '../../engine/records/merged.ts';
import type { MergeOfPlan, PlanPut } from '../../engine/records/mergeOfPlan.ts';
import { countOf } from '../steps/words.ts';

/** "access.clearDiameter" as words: "access, clear diameter". */
export function fieldWords(path: string): string {
  return path
    .replaceAll(/([a-z])([A-Z])/g, (_, before: string, letter: string) => `${before} ${letter.toLowerCase()}`)
    .replaceAll('.', ', ');
}

export const tableWords: Record<Differing['table'], string> = {
  items: 'Catalog item',
  outings: 'Outing',
  steps: 'Step',
  tasks: 'Task',
};

const counted = [
  { table: 'shelves', one: 'shelf', many: 'shelves' },
  { table: 'items', one: 'item', many: 'items' },
  { table: 'tasks', one: 'task', many: 'tasks' },
  { table: 'outings', one: 'outing', many: 'outings' },
  { table: 'steps', one: 'step', many: 'steps' },
] as const satisfies readonly { table: PlanPut['table']; one: string; many: string }[];

/** "65 items, 1 task and 24 steps" of those given; empty for none. */
function amounts(puts: readonly PlanPut[]): string {
  const parts = counted.flatMap(({ table, one, many }) => {
    const count = puts.filter((put) => put.table === table).length;
    return count === 0 ? [] : [countOf(count, one, many)];
  });
  const last = parts.pop();
  if (last === undefined) return '';
  return parts.length === 0 ? last : `${parts.join(', ')} and ${last}`;
}

/** What the button writes: "Add 65 items and 24 steps, change 2 items". Null where nothing is to be written. */
export function writesText({ puts }: MergeOfPlan): string | null {
  // A record that is kept already carries its revision.
  const added = amounts(puts.filter(({ put }) => put.rev === 0));
  const changed = amounts(puts.filter(({ put }) => put.rev > 0));
  if (added === '' && changed === '') return null;
  if (changed === '') return `Add ${added}`;
  return added === '' ? `Change ${changed}` : `Add ${added}; change ${changed}`;
}

/** The same once it is written. */
export function writtenText(writes: string): string {
  return writes
    .replace(/^Add /, 'Added ')
    .replace(/^Change /, 'Changed ')
    .replace('; change ', '; changed ');
}

export interface CountRow {
  what: string;
  add: number;
  same: number;
  differ: number;
  onlyHere: number;
}

/** One row for each list of the file. The order of a list is no entry of it. */
export function countRows(merge: MergeOfPlan): CountRow[] {
  const row = (what: string, list: Comparison): CountRow => ({
    what,
    add: list.add.length,
    same: list.same.length,
    differ: list.differ.filter(({ fields }) => fields.every(({ path }) => path !== 'order')).length,
    onlyHere: list.onlyHere.length,
  });
  const { task } = merge;
  const rows = [row('Catalog items', merge.items)];
  if (task === 'none') return rows;
  const one = { what: 'Task', add: 0, same: 0, differ: 0, onlyHere: 0 };
  const told = task === 'add' ? { ...one, add: 1 } : task === 'same' ? { ...one, same: 1 } : { ...one, differ: 1 };
  return [...rows, told, row('Outings', merge.outings), row('Steps', merge.steps)];
}

export function differingOf(merge: MergeOfPlan): Differing[] {
  const { task } = merge;
  return [
    ...(typeof task === 'string' ? [] : [task]),
    ...merge.outings.differ,
    ...merge.steps.differ,
    ...merge.items.differ,
  ];
}
