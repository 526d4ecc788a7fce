import type { AnyRecord, TableName } from '../../../shared-types/records/index.ts';
import type { TableSource } from './liveTable.ts';
import type { WorkingCopy } from './workingCopy.ts';
import { settled } from './workingCopy.ts';

/** How a live table reads the working copy. */
export function tableSource(copy: WorkingCopy, name: TableName): TableSource<AnyRecord> {
  const records = copy.table<AnyRecord, string>(name);
  return {
    async page(after, limit) {
      await copy.arrived();
      return await settled(
        (after === null ? records.toCollection() : records.where(':id').above(after)).limit(limit).toArray(),
      );
    },
    async some(ids) {
      await copy.arrived();
      const found = await settled(records.bulkGet([...ids]));
      return new Map(ids.map((id, at) => [id, found[at] ?? null]));
    },
  };
}
