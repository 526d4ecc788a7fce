/** What bringing everything of a file in would do to what is kept: it adds, it may change what differs, and it takes nothing away. */
import { canonicalJson } from '../../../shared-types/canonicalJson.ts';
import type { AnyRecord, TableName } from '../../../shared-types/records/index.ts';
import { tableNames } from '../../../shared-types/records/index.ts';
import type { Item } from '../../../shared-types/records/item.ts';
import { lastingFaults, takenLasting } from './lasting.ts';
import type { AllTables } from './readSnapshotText.ts';
import { sameUnderOtherKeys } from './sameUnderOtherKeys.ts';

/** What becomes of a record that is here already and says something else in the file. */
export type Differing = 'keep' | 'take';

export interface TableInto {
  table: TableName;
  /** In the file and not here. */
  added: number;
  differs: number;
  same: number;
  /** Here and not in the file; it stays. */
  onlyHere: number;
}

/** A record that is here and in the file, and not the same: both versions, the file's as it would be kept. */
export interface DifferingRecord {
  table: TableName;
  here: AnyRecord;
  file: AnyRecord;
  /** Whether it is for a person to say which is kept: settings and planned bags stay, and a closing comes, in any case. */
  isChoice: boolean;
}

export interface Into {
  /** As they would be kept: `rev` is that of the record that is here, 0 where there is none. */
  puts: { table: TableName; record: AnyRecord }[];
  tables: TableInto[];
  differing: DifferingRecord[];
  /** Things that come without the number on their label, because it names another thing here. */
  withoutLabel: Item[];
  /** Why nothing of it can be brought in; none where it can. */
  faults: string[];
  /** Something comes that nothing takes away again: frozen manifests and their record, or a label's number. */
  lasts: boolean;
}

/** How the person likes it, and what the planner can work out again. */
const ownHere = new Set<TableName>(['preferences', 'results']);

/**
 * Holds a file's records against what is kept.
 *
 * @param here - every record that is kept
 * @param given - every record of the file
 * @param x.differing - whether what differs stays as it is here, or becomes what the file says
 * @returns what would be written, and what it comes to, table by table
 */
export function intoHere(here: AllTables, given: AllTables, x: { differing: Differing }): Into {
  const file = sameUnderOtherKeys(here, given);
  const into: Into = { puts: [], tables: [], differing: [], withoutLabel: [], faults: [], lasts: false };
  const labels = new Map<number, string>();
  for (const [id, item] of (here.get('items') ?? new Map()) as ReadonlyMap<string, Item>)
    if (item.tag !== undefined) labels.set(item.tag, id);
  into.faults = lastingFaults(here, file);

  for (const table of tableNames) {
    const own = here.get(table) ?? new Map<string, AnyRecord>();
    const theirs = file.get(table) ?? new Map<string, AnyRecord>();
    const count: TableInto = { table, added: 0, differs: 0, same: 0, onlyHere: 0 };
    for (const [id, record] of theirs) {
      const held = own.get(id);
      const wanted = table === 'items' ? labelled(record as Item, held as Item | undefined, labels, into) : record;
      if (held === undefined) {
        count.added += 1;
        into.puts.push({ table, record: { ...wanted, rev: 0 } });
        continue;
      }
      const taken = takenLasting(table, held, wanted);
      const changed = taken === 'ordinary' ? wanted : taken;
      if (changed === null || sameContent(held, changed)) {
        count.same += 1;
        continue;
      }
      count.differs += 1;
      const isChoice = taken === 'ordinary' && !ownHere.has(table);
      into.differing.push({ table, here: held, file: changed, isChoice });
      // A closing goes with its discrepancy whatever is chosen: both copies say the same of the rest.
      const isTaken = taken !== 'ordinary' || (x.differing === 'take' && isChoice);
      if (isTaken) into.puts.push({ table, record: { ...changed, rev: held.rev } });
    }
    for (const id of own.keys()) if (!theirs.has(id)) count.onlyHere += 1;
    if (count.added + count.differs + count.same + count.onlyHere > 0) into.tables.push(count);
  }
  into.lasts = into.puts.some(({ table, record }) => isLasting(table, record, here));
  return into;
}

function isLasting(table: TableName, record: AnyRecord, here: AllTables): boolean {
  if (table === 'revisions' || table === 'events' || table === 'discrepancies') return true;
  if (table !== 'items') return false;
  const { id, tag } = record as Item;
  return tag !== undefined && (here.get('items')?.get(id) as Item | undefined)?.tag !== tag;
}

/** The number on a thing's label is one thing's for good: what has one here keeps it, and no other thing gets it. */
function labelled(record: Item, held: Item | undefined, labels: Map<number, string>, into: Into): Item {
  const { tag, ...bare } = record;
  if (held?.tag !== undefined) return { ...bare, tag: held.tag } as Item;
  if (tag === undefined) return record;
  const holder = labels.get(tag);
  if (holder === undefined || holder === record.id) {
    labels.set(tag, record.id);
    return record;
  }
  into.withoutLabel.push(record);
  return bare as Item;
}

function sameContent(one: AnyRecord, other: AnyRecord): boolean {
  return canonicalJson({ ...one, rev: 0 }) === canonicalJson({ ...other, rev: 0 });
}
