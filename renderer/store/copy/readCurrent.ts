import type { AnyRecord, TableName } from '../../../shared-types/records/index.ts';
import { inPieces } from '../inPieces.ts';
import type { CurrentRecords } from '../writing/prepare.ts';
import { recordKey } from '../writing/prepare.ts';
import type { Wish } from '../writing/wishes.ts';
import type { MetaRow, WorkingCopy } from './workingCopy.ts';
import { allTables, settled } from './workingCopy.ts';

/** From so many records of a table on, asking first which are there costs less than asking for each; so many at once. */
const many = 400;

/** The records that the wishes are about, and the copy's head, at one moment. */
export function readCurrent(
  copy: WorkingCopy,
  wishes: readonly Pick<Wish, 'table' | 'id'>[],
): Promise<{ head: MetaRow | undefined; current: CurrentRecords }> {
  const ids = new Map<TableName, string[]>();
  for (const { table, id } of wishes) {
    const held = ids.get(table);
    if (held === undefined) ids.set(table, [id]);
    else held.push(id);
  }
  return settled(
    copy.transaction('r', allTables, async () => {
      const head = await copy.meta().get('head');
      const current = new Map<string, AnyRecord>();
      for (const [table, wanted] of ids) {
        const records = copy.table<AnyRecord, string>(table);
        const there = wanted.length > many ? new Set(await records.toCollection().primaryKeys()) : null;
        const asked = there === null ? wanted : wanted.filter((id) => there.has(id));
        for (const piece of inPieces(asked, many))
          for (const record of await records.bulkGet(piece))
            if (record !== undefined) current.set(recordKey({ table, id: record.id }), record);
      }
      return { head, current };
    }),
  );
}
