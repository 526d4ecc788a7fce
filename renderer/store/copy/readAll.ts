import type { AnyRecord, TableName } from '../../../shared-types/records/index.ts';
import { tableNames } from '../../../shared-types/records/index.ts';
import { breathe } from '../breathe.ts';
import { tableSource } from './tableSource.ts';
import type { WorkingCopy } from './workingCopy.ts';

const pageSize = 1000;

/** Every record of every table, as the working copy has it; read in pieces. */
export async function readAll(copy: WorkingCopy): Promise<Map<TableName, Map<string, AnyRecord>>> {
  const tables = new Map<TableName, Map<string, AnyRecord>>();
  for (const name of tableNames) {
    const source = tableSource(copy, name);
    const records = new Map<string, AnyRecord>();
    for (let after: string | null = null; ;) {
      const page: AnyRecord[] = await source.page(after, pageSize);
      for (const record of page) records.set(record.id, record);
      const last = page.at(-1);
      if (page.length < pageSize || last === undefined) break;
      after = last.id;
      await breathe();
    }
    tables.set(name, records);
  }
  return tables;
}
