import type { SnapshotHost } from '../../../shared-types/host.ts';
import type { AnyRecord, TableName } from '../../../shared-types/records/index.ts';
import { recordSchemas } from '../../../shared-types/records/index.ts';
import type { SnapshotHead } from '../../../shared-types/snapshot.ts';
import { refusalFromZod } from '../../engine/json/refusalFromZod.ts';
import { breaths } from '../../store/breathe.ts';
import { nameOf } from '../../store/recordNames.ts';

export interface WholeSnapshot {
  head: SnapshotHead;
  tables: Map<TableName, Map<string, AnyRecord>>;
}

/** All pages of one; each record is checked again on its way in. @throws RefusedError naming what is not whole */
export async function readSnapshotWhole(
  host: SnapshotHost,
  name: string,
  onProgress: (read: number, of: number) => void = () => undefined,
): Promise<WholeSnapshot> {
  const tables: WholeSnapshot['tables'] = new Map();
  const breath = breaths();
  let read = 0;
  for (let from: number | null = 0; ;) {
    const { head, records, next } = await host.read({ name, from });
    const of = Object.values(head.counts).reduce((sum, count) => sum + count, 0);
    for (const [table, record] of records) {
      await breath();
      const checked = recordSchemas[table].safeParse(record);
      if (!checked.success) {
        const fault = refusalFromZod(checked.error, { input: record });
        throw Object.assign(fault, { message: `${nameOf(table, record)}: ${fault.message}` });
      }
      const own = tables.get(table) ?? new Map<string, AnyRecord>();
      tables.set(table, own.set(checked.data.id, checked.data));
    }
    read += records.length;
    onProgress(read, of);
    if (next === null) return { head, tables };
    from = next;
  }
}
