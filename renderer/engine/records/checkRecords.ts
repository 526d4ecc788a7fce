/** Looks all kept records through: is each whole, is what it names there, is nothing there twice, does every chain hold? */
import { recordSchemas, tableNames } from '../../../shared-types/records/index.ts';
import type { TableName } from '../../../shared-types/records/index.ts';
import type { OutingEvent, Revision } from '../../../shared-types/records/revision.ts';
import { chainFault } from '../record/chain.ts';
import type { Digest } from '../record/chain.ts';
import { keyFields, onceWithin } from './keyFields.ts';

/** Records of every table by their keys, as they were read; nothing is taken for granted of them. */
export type KeptTables = ReadonlyMap<TableName, ReadonlyMap<string, Readonly<Record<string, unknown>>>>;

export interface RecordFault {
  table: TableName;
  id: string;
  rule: 'shape' | 'key' | 'lost' | 'twice' | 'chain';
  message: string;
}

/**
 * Every fault of the kept records, table by table.
 *
 * @param kept - records of every table, as read
 * @param digest - SHA-256
 * @returns faults in the order of the tables; none where all of it is whole
 */
export async function checkRecords(kept: KeptTables, digest: Digest): Promise<RecordFault[]> {
  return [
    ...shapeFaults(kept),
    ...lostParents(kept),
    ...lostOutings(kept),
    ...twiceThere(kept),
    ...(await brokenChains(kept, digest)),
  ];
}

const of = (kept: KeptTables, table: TableName): [string, Readonly<Record<string, unknown>>][] => [
  ...(kept.get(table) ?? []),
];

function shapeFaults(kept: KeptTables): RecordFault[] {
  const faults: RecordFault[] = [];
  for (const table of tableNames) {
    for (const [id, record] of of(kept, table)) {
      const checked = recordSchemas[table].safeParse(record);
      if (!checked.success) {
        const [issue] = checked.error.issues;
        const path = (issue?.path ?? []).map(String).join('.');
        faults.push({ table, id, rule: 'shape', message: `${path}: ${issue?.message ?? 'of another shape'}` });
      } else if (checked.data.id !== id)
        faults.push({
          table,
          id,
          rule: 'key',
          message: `it is kept under another key than its own, ${checked.data.id}`,
        });
    }
  }
  return faults;
}

function lostParents(kept: KeptTables): RecordFault[] {
  const faults: RecordFault[] = [];
  for (const { table, field, to } of keyFields) {
    const there = kept.get(to);
    for (const [id, record] of of(kept, table)) {
      const held = record[field];
      const keys = Array.isArray(held) ? (held as unknown[]) : held === undefined ? [] : [held];
      for (const key of keys)
        if (typeof key !== 'string' || there?.has(key) !== true)
          faults.push({
            table,
            id,
            rule: 'lost',
            message: `${field} names ${String(key)}, and ${to} hold no such record`,
          });
    }
  }
  return faults;
}

/** A step names its outing by code. */
function lostOutings(kept: KeptTables): RecordFault[] {
  const there = new Set(of(kept, 'outings').map(([, { task, code }]) => JSON.stringify([task, code])));
  return of(kept, 'steps').flatMap(([id, { task, outing }]): RecordFault[] =>
    there.has(JSON.stringify([task, outing]))
      ? []
      : [{ table: 'steps', id, rule: 'lost', message: `outing names ${String(outing)}, which its task has not` }],
  );
}

function twiceThere(kept: KeptTables): RecordFault[] {
  const faults: RecordFault[] = [];
  for (const { table, parent, field } of onceWithin) {
    const first = new Map<string, string>();
    for (const [id, record] of of(kept, table)) {
      if (record[field] === undefined) continue;
      const key = JSON.stringify([parent === null ? null : record[parent], record[field]]);
      const other = first.get(key);
      if (other === undefined) first.set(key, id);
      else
        faults.push({
          table,
          id,
          rule: 'twice',
          message: `${field} ${String(record[field])} is that of ${other} already`,
        });
    }
  }
  return faults;
}

async function brokenChains(kept: KeptTables, digest: Digest): Promise<RecordFault[]> {
  const faults: RecordFault[] = [];
  const byRevision = new Map<string, OutingEvent[]>();
  for (const [, record] of of(kept, 'events')) {
    const checked = recordSchemas.events.safeParse(record);
    if (!checked.success) continue;
    byRevision.set(checked.data.revision, [...(byRevision.get(checked.data.revision) ?? []), checked.data]);
  }
  for (const [id, record] of of(kept, 'revisions')) {
    // What has not even the shape of one was said before.
    if (!recordSchemas.revisions.safeParse(record).success) continue;
    const fault = await chainFault(record as unknown as Revision, byRevision.get(id) ?? [], digest);
    if (fault !== null)
      faults.push({
        table: 'revisions',
        id,
        rule: 'chain',
        message: `${fault.no === 0 ? '' : `event ${fault.no}: `}${fault.reason}`,
      });
  }
  return faults;
}
