/**
 * Word to and from the other windows of the same profile. It is a hint and no more: whoever hears it reads the database
 * or the journal, and whoever misses it notices by the sequence.
 */
import { tableNames } from '../../../shared-types/records/index.ts';
import { z } from '../../../shared-types/schema.ts';
import type { ChangedKeys } from '../copy/liveTables.ts';

const wordSchema = z.union([
  z.strictObject({
    seq: z.int().min(1),
    keys: z.array(z.tuple([z.enum(tableNames), z.array(z.string()).nullable()])),
  }),
  /** The working copy is another database from now on. */
  z.strictObject({ moved: z.string() }),
]);

export interface OtherWindows {
  changed(seq: number, keys: ChangedKeys): void;
  moved(database: string): void;
  close(): void;
}

export interface Heard {
  onChanged(seq: number, keys: ChangedKeys): void;
  onMoved(database: string): void;
}

export function otherWindows(name: string, heard: Heard): OtherWindows {
  const channel = new BroadcastChannel(name);
  channel.addEventListener('message', ({ data }) => {
    const word = wordSchema.safeParse(data);
    if (!word.success) return;
    if ('moved' in word.data) heard.onMoved(word.data.moved);
    else heard.onChanged(word.data.seq, word.data.keys);
  });
  return {
    changed: (seq, keys) => channel.postMessage({ seq, keys }),
    moved: (database) => channel.postMessage({ moved: database }),
    close: () => channel.close(),
  };
}
