/** From what is kept now to what a snapshot holds, as one act like any other: Undo takes it back. */
import type { AnyRecord, TableName } from '../../../shared-types/records/index.ts';
import { tableNames } from '../../../shared-types/records/index.ts';
import { canonicalJson } from '../../../shared-types/canonicalJson.ts';
import type { Item } from '../../../shared-types/records/item.ts';
import type { Revision } from '../../../shared-types/records/revision.ts';
import type { Task } from '../../../shared-types/records/task.ts';
import { breaths } from '../breathe.ts';
import type { Proposal } from '../store.ts';

export type Tables = ReadonlyMap<TableName, ReadonlyMap<string, AnyRecord>>;

export interface TableChange {
  table: TableName;
  comes: number;
  changes: number;
  goes: number;
  stays: number;
  /** Came since and is kept all the same. */
  kept: number;
}

export interface Restoring {
  proposals: Proposal[];
  tables: TableChange[];
  /** Something comes back that nothing takes away again: frozen manifests and their record, or the number on a label. */
  lasts: boolean;
}

/** How the person likes it is no part of the work: what is set here stays, and where nothing is, it comes back. */
const leftAlone = new Set<TableName>(['preferences']);
/** Only ever added to: what left and came back stays as it was written. */
const onlyAdded = new Set<TableName>(['revisions', 'events', 'discrepancies']);

/** In turns, between which the page answers. @returns what would be done to make it so; no proposals where all of it is so already */
export async function restoring(now: Tables, wanted: Tables): Promise<Restoring> {
  const breath = breaths();
  const proposals: Proposal[] = [];
  const tables: TableChange[] = [];
  let lasts = false;
  const stood = standOn(now);
  for (const table of tableNames) {
    if (leftAlone.has(table) && (now.get(table)?.size ?? 0) > 0) continue;
    const change: TableChange = { table, comes: 0, changes: 0, goes: 0, stays: 0, kept: 0 };
    const [here, there] = [now.get(table) ?? new Map(), wanted.get(table) ?? new Map<string, AnyRecord>()];
    for (const [id, was] of there) {
      await breath();
      const held = here.get(id) as AnyRecord | undefined;
      const record = table === 'items' ? withItsLabel(was as Item, held as Item | undefined) : was;
      if (held === undefined) change.comes += 1;
      else if (onlyAdded.has(table) || sameContent(held, record)) {
        change.stays += 1;
        continue;
      } else change.changes += 1;
      proposals.push({ table, put: { ...record, rev: held?.rev ?? 0 } } as Proposal);
      if (onlyAdded.has(table) || tagOf(record) !== tagOf(held)) lasts = true;
    }
    for (const [id, { rev }] of here as ReadonlyMap<string, AnyRecord>) {
      await breath();
      if (there.has(id)) continue;
      if (onlyAdded.has(table) || stood.get(table)?.has(id) === true) change.kept += 1;
      else {
        change.goes += 1;
        proposals.push({ table, remove: { id, rev } });
      }
    }
    if (change.comes + change.changes + change.goes + change.stays + change.kept > 0) tables.push(change);
  }
  return { proposals, tables, lasts };
}

/** A thing that has a label now keeps its number, whatever it was then. */
function withItsLabel(was: Item, held: Item | undefined): Item {
  return held?.tag === undefined ? was : { ...was, tag: held.tag };
}

function tagOf(record: AnyRecord | undefined): number | undefined {
  return record !== undefined && 'tag' in record ? record.tag : undefined;
}

function sameContent(one: AnyRecord, other: AnyRecord): boolean {
  return canonicalJson({ ...one, rev: 0 }) === canonicalJson({ ...other, rev: 0 });
}

/** Frozen manifests stay, and with them the task of each, and what that stands on; things with a label stay, and their shelf. */
function standOn(now: Tables): ReadonlyMap<TableName, ReadonlySet<string>> {
  const tasks = new Set<string>();
  const shelves = new Set<string>();
  const sites = new Set<string>();
  const items = new Set<string>();
  for (const record of (now.get('items')?.values() ?? []) as Iterable<Item>) {
    if (record.tag === undefined) continue;
    items.add(record.id);
    shelves.add(record.shelf);
  }
  for (const record of now.get('revisions')?.values() ?? []) {
    const { task } = record as Revision;
    const held = now.get('tasks')?.get(task) as Task | undefined;
    tasks.add(task);
    for (const shelf of held?.shelves ?? []) shelves.add(shelf);
    if (held?.site !== undefined) sites.add(held.site);
  }
  return new Map<TableName, ReadonlySet<string>>([
    ['tasks', tasks],
    ['shelves', shelves],
    ['items', items],
    ['sites', sites],
  ]);
}
