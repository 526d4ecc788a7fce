/** F5 and F6 at the journal: a disk that is full, or whose calls fail. Nothing half written, nothing acknowledged lost. */
import { readFileSync } from 'node:fs';
import { HostRefusal } from '../../electron/site/refusal.ts';
import { linesIn, segmentPaths } from '../electron/support/journalParts.ts';
import { faultyDisk, type DiskCall, type FaultyDisk } from '../electron/support/faultyDisk.ts';
import { must, mustEqual, type Part } from './part.ts';
import { scratch } from './support/scratch.ts';
import { always, shelfJournal, type ShelfJournal } from './support/shelves.ts';

interface Acknowledged {
  seq: number;
  hash: string;
}

/** Appends until `count` tries are made; every refusal must be the disk's. */
async function tries(journal: ShelfJournal, count: number): Promise<{ acknowledged: Acknowledged[]; refused: number }> {
  const acknowledged: Acknowledged[] = [];
  let refused = 0;
  for (let turn = 0; turn < count; turn += 1) {
    try {
      acknowledged.push(await journal.add(acknowledged.length + 1));
    } catch (cause) {
      must(
        isDisks(cause) && /^Not saved|^Nothing/.test(cause.message),
        'broken',
        `refused otherwise: ${String(cause)}`,
      );
      refused += 1;
      mustBeWholeLines(journal.folder, acknowledged.length);
    }
  }
  return { acknowledged, refused };
}

const isDisks = (cause: unknown): cause is HostRefusal => cause instanceof HostRefusal && cause.refusal.code === 'disk';

/** Whatever happened, the files hold whole lines, and as many as were acknowledged. */
function mustBeWholeLines(folder: string, count: number): void {
  const there = linesIn(folder).length;
  must(there >= count, 'lost', `${there} lines of ${count} acknowledged`);
  must(there <= count, 'partial', `${there} lines of ${count} acknowledged`);
  for (const path of segmentPaths(folder)) {
    const bytes = readFileSync(path);
    must(bytes.length === 0 || bytes.at(-1) === 0x0a, 'partial', `${path} ends within a line`);
  }
}

/** After the disk works again: verified, complete, and open for more. */
async function mustBeWhole(journal: ShelfJournal, acknowledged: readonly Acknowledged[]): Promise<void> {
  const { seq, hash, damage, tail } = await journal.open();
  mustEqual([seq, damage, tail], [acknowledged.length, null, null], 'lost', 'the journal opened again');
  mustEqual(hash, acknowledged.at(-1)?.hash ?? '0'.repeat(64), 'lost', 'its head');
  mustEqual((await journal.add(seq + 1)).seq, seq + 1, 'broken', 'the next entry');
}

async function onFaultyDisk(
  within: string,
  segmentBytes: number,
  work: (journal: ShelfJournal, disk: FaultyDisk) => Promise<void>,
): Promise<void> {
  const disk = faultyDisk({ realSyncs: false });
  const journal = shelfJournal(within, { disk, segmentBytes });
  try {
    await work(journal, disk);
  } finally {
    journal.close();
  }
}

const withScratch = (trial: (within: string, n: number) => Promise<void>): Part['open'] =>
  function open() {
    const own = scratch();
    return { trial: (n) => trial(own.folder(), n), close: () => own.clear() };
  };

/** Trial n: at the write number n + 1. Not always at its first byte: a part of the line may be on the disk already. */
export const fullOnce: Part = {
  of: 'F5',
  fault: 'the disk is full at the n-th write, n = 1 … 100, once',
  trials: 100,
  open: withScratch((within, n) =>
    onFaultyDisk(within, 2_000, async (journal, disk) => {
      const nth = n + 1;
      await journal.open();
      disk.fail({ call: 'write', code: 'ENOSPC', nth, times: 1, partBytes: (nth * 37) % 400 });
      const { acknowledged, refused } = await tries(journal, nth + 1);
      mustEqual([refused, acknowledged.length], [1, nth], 'broken', 'refused and acknowledged');
      await mustBeWhole(journal, acknowledged);
    }),
  ),
};

export const fullFromThenOn: Part = {
  of: 'F5',
  fault: 'the disk is full from the n-th write on, n = 1 … 100, until there is room again',
  trials: 100,
  open: withScratch((within, n) =>
    onFaultyDisk(within, 2_000, async (journal, disk) => {
      const nth = n + 1;
      await journal.open();
      disk.fail({ call: 'write', code: 'ENOSPC', nth, times: Infinity, partBytes: (nth * 53) % 400 });
      const { acknowledged, refused } = await tries(journal, nth + 2);
      mustEqual([refused, acknowledged.length], [3, nth - 1], 'broken', 'refused and acknowledged');
      disk.heal();
      // Without opening it again: room is all that was lacking.
      acknowledged.push(await journal.add(acknowledged.length + 1));
      await mustBeWhole(journal, acknowledged);
    }),
  ),
};

const calls: readonly DiskCall[] = [
  ...(['open', 'write', 'truncate', 'chmod', 'stat', 'sync', 'datasync', 'close', 'readFile'] as const),
  ...(['readdir', 'mkdir', 'rename'] as const),
];
const codes = ['EIO', 'EPERM', 'EBUSY', 'EACCES', 'EROFS'] as const;

/** Trial n: the call number n mod 12 fails at its n div 12 + 1st time, through opening, writing, the pointer and beginning again. */
export const callFails: Part = {
  of: 'F6',
  fault: 'EIO, EPERM, EBUSY, EACCES or EROFS at the n-th call of each kind, n = 1 … 12',
  trials: 12 * 12 * 2,
  open: withScratch((within, n) =>
    onFaultyDisk(within, 700, async (journal, disk) => {
      const call = calls[n % calls.length] ?? 'open';
      const nth = (Math.floor(n / calls.length) % 12) + 1;
      const code = codes[Math.floor(n / calls.length) % codes.length] ?? 'EIO';
      const where = `${code} at ${call} ${nth}`;
      const acknowledged: Acknowledged[] = [];
      const attempt = async (asked: () => Promise<unknown>): Promise<void> => {
        await asked().catch((cause: unknown) => {
          const known = cause instanceof HostRefusal && ['disk', 'not-available'].includes(cause.refusal.code);
          must(known, 'broken', `${where}: ${String(cause)}`);
        });
      };
      disk.fail({ call, code, nth, times: 1 });
      await attempt(() => journal.open());
      for (let turn = 0; turn < 5; turn += 1)
        await attempt(async () => acknowledged.push(await journal.add(acknowledged.length + 1)));
      await attempt(() => journal.setDatabase({ name: 'b' }, always));
      await attempt(() => journal.open());
      await attempt(() => journal.beginAgain({ keepThrough: acknowledged.length }, always));
      disk.heal();
      const { seq, damage, tail } = await journal.open();
      mustEqual([damage, tail], [null, null], 'broken', where);
      must(seq >= acknowledged.length, 'lost', `${where}: ${seq} of ${acknowledged.length} entries`);
      // A line that could neither be kept nor taken back was refused, and may be there.
      must(seq <= acknowledged.length + 1, 'partial', `${where}: ${seq} of ${acknowledged.length} entries`);
      const { entries } = await journal.read({ from: 1 });
      const hashes = entries.slice(0, acknowledged.length).map(({ hash }) => hash);
      mustEqual(
        hashes,
        acknowledged.map(({ hash }) => hash),
        'lost',
        where,
      );
      mustEqual((await journal.add(seq + 1)).seq, seq + 1, 'broken', `${where}: the next entry`);
    }),
  ),
};
