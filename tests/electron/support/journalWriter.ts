/** A process of its own that writes entries until it is killed, and says each one that was acknowledged. */
import { randomUUID } from 'node:crypto';
import { journalDesk } from '../../../electron/journal/desk.ts';

const desk = journalDesk({ folder: process.argv[2] ?? '', segmentBytes: 20_000 });
const wordBytes = Number(process.argv[3] ?? 100);

try {
  const { seq: last } = await desk.open();
  const lease = desk.lease.take({ takeOver: true }, () => undefined);
  process.stdout.write(`open ${last}\n`);
  for (let seq = last + 1; ; seq += 1) {
    const { hash } = await desk.append({
      lease: lease?.id ?? '',
      seq,
      user: '',
      action: 'edit',
      payload: {
        title: `Edit ${seq}`,
        key: randomUUID(),
        undoable: true,
        changes: [
          {
            table: 'shelves',
            id: 's',
            before: null,
            after: { id: 's', rev: seq, name: 'Store', notes: 'x'.repeat(wordBytes) },
          },
        ],
      },
    });
    process.stdout.write(`${seq} ${hash}\n`);
  }
} catch (cause) {
  process.stdout.write(`refused ${cause instanceof Error ? cause.message : String(cause)}\n`);
}
