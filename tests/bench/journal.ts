/**
 * What the journal costs on this machine: `npx tsx tests/bench/journal.ts [entries] [items] [items an entry]`. It is opened and verified whole,
 * appended to one by one with its syncs, read back in pages, opened again from its checkpoint, and made a snapshot of.
 */
import { randomUUID } from 'node:crypto';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { journalDesk } from '../../electron/journal/desk.ts';
import { seal } from '../../electron/journal/entry.ts';
import { segmentAt, segmentBytes } from '../../electron/journal/segments.ts';
import { roundNominal } from '../../renderer/engine/units/index.ts';
import { emptyHash, type Change } from '../../shared-types/journal.ts';
import { recordsVersion } from '../../shared-types/records/index.ts';

const entryCount = Number(process.argv[2] ?? 50_000);
/** So many items are edited one by one, again and again: a snapshot holds each once. */
const itemCount = Number(process.argv[3] ?? 10_000);
/** One each, as they are edited; 500 each, as they are brought in. */
const perEntry = Number(process.argv[4] ?? 1);
const appendCount = 1_000;
const scratch = mkdtempSync(join(tmpdir(), 'bagwright-bench-'));
// Its snapshots lie beside it.
const folder = join(scratch, 'journal');

function edit(count: number): Change {
  const id = `s${count % itemCount}`;
  const socket = (rev: number): Record<string, unknown> => ({
    id,
    rev,
    shelf: 'shelf',
    code: `S-${id}`,
    name: 'Socket, long, for the bench',
    kind: 'socket',
    retired: false,
    parts: 1,
    kit: 'field',
    mass: '120 g',
    onHand: 3,
    drive: '3/8 in',
    opening: { form: 'hex6', size: '12 mm' },
    length: '60 mm',
    outsideDiameter: '18 mm',
    ratedTorque: '80 N·m',
  });
  return { table: 'items', id, before: count >= itemCount ? socket(1) : null, after: socket(2) };
}

const payload = (seq: number) => ({
  title: `Edit ${seq}`,
  key: randomUUID(),
  undoable: true,
  changes: Array.from({ length: seq > entryCount ? 1 : perEntry }, (_, at) => edit((seq - 1) * perEntry + at)),
});

function fill(): void {
  const entries = join(folder, 'entries-1');
  mkdirSync(entries, { recursive: true });
  let prevHash = emptyHash;
  let lines: Buffer[] = [];
  let [first, bytes] = [1, 0];
  const flush = (): void => writeFileSync(join(entries, segmentAt(first).name), Buffer.concat(lines));
  for (let seq = 1; seq <= entryCount; seq += 1) {
    const { entry, line } = seal({
      seq,
      deviceId: 'ab'.repeat(16),
      utc: new Date(Date.UTC(2031, 3, 5) + seq * 1_000).toISOString(),
      tzOffset: 0,
      user: 'A. Example',
      action: 'edit',
      payload: payload(seq),
      schema: recordsVersion,
      prevHash,
    });
    prevHash = entry.hash;
    if (bytes > 0 && bytes + line.length > segmentBytes) {
      flush();
      [lines, first, bytes] = [[], seq, 0];
    }
    lines.push(line);
    bytes += line.length;
  }
  flush();
}

async function timed(what: string, work: () => Promise<unknown>): Promise<void> {
  const [began, cpu] = [performance.now(), process.cpuUsage()];
  await work();
  const { user, system } = process.cpuUsage(cpu);
  const [wallMs, cpuMs] = [performance.now() - began, (user + system) / 1_000].map((ms) => roundNominal(ms, 0));
  // On a machine that is busy with other things the processor's own time is the one to compare.
  process.stdout.write(`${what}: ${wallMs} ms (${cpuMs} ms of processor)\n`);
}

try {
  fill();
  const desk = journalDesk({ folder });
  await timed(`open and verify ${entryCount} entries`, () => desk.open());
  const lease = desk.lease.take({ takeOver: false }, () => undefined);
  const times: number[] = [];
  for (let seq = entryCount + 1; seq <= entryCount + appendCount; seq += 1) {
    const began = performance.now();
    await desk.append({ lease: lease?.id ?? '', seq, user: '', action: 'edit', payload: payload(seq) });
    times.push(performance.now() - began);
  }
  const sorted = times.toSorted((a, b) => a - b);
  const at = (share: number): string => roundNominal(sorted[Math.floor(share * appendCount)] ?? 0, 1);
  process.stdout.write(`append with its sync: p50 ${at(0.5)} ms, p95 ${at(0.95)} ms, p99 ${at(0.99)} ms\n`);
  await timed('read it all back', async () => {
    for (let from: number | null = 1; from !== null;) from = (await desk.read({ from })).next;
  });
  desk.close();
  // The first opening left a checkpoint; what was appended since is read line by line.
  const again = journalDesk({ folder });
  await timed('open again, from the checkpoint', () => again.open());
  await timed('make a snapshot, read back and verified', () => again.snapshots.make('asked'));
  const writing = again.lease.take({ takeOver: false }, () => undefined);
  const next = entryCount + appendCount + 1;
  await again.append({ lease: writing?.id ?? '', seq: next, user: '', action: 'edit', payload: payload(next) });
  await timed('make the next one, after one entry more', () => again.snapshots.make('asked'));
  const [made] = (await again.snapshots.list()).snapshots;
  process.stdout.write(`the snapshot: ${roundNominal((made?.bytes ?? 0) / 1e6, 1)} MB\n`);
  again.close();
} finally {
  rmSync(scratch, { recursive: true, force: true });
}
