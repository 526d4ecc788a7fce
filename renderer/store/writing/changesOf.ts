/** What was done to one record, read out of the journal: the screens hold the newest heads alone, and no changes. */
import type { JournalHost } from '../../../shared-types/host.ts';
import type { TableName } from '../../../shared-types/records/index.ts';
import { breathe } from '../breathe.ts';
import type { RecordChange } from '../store.ts';
import { entriesFrom } from './hostCalls.ts';

/** Every change of the record, the newest first. The whole journal is read for it, page by page. */
export async function changesOf(
  journal: JournalHost,
  { table, id }: { table: TableName; id: string },
  limitMs: () => number,
): Promise<RecordChange[]> {
  const found: RecordChange[] = [];
  for await (const entries of entriesFrom(journal, 1, limitMs)) {
    for (const { seq, utc, tzOffset, user, action, payload } of entries) {
      const change = payload.changes.find((one) => one.table === table && one.id === id);
      if (change === undefined) continue;
      const { before, after } = change;
      found.push({ seq, utc, tzOffset, user, action, title: payload.title, before, after });
    }
    await breathe();
  }
  return found.toReversed();
}
