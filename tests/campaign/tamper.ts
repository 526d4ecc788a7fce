/** F14: what was done to a journal's files is found, with its place. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { realDisk } from '../../electron/files/disk.ts';
import { seal } from '../../electron/journal/entry.ts';
import { verify, type PrintedHead } from '../../electron/journal/verify.ts';
import type { Appended, JournalEntry } from '../../shared-types/journal.ts';
import { comes } from '../electron/support/journalParts.ts';
import type { Dice } from '../reference/dice.ts';
import { must, mustEqual, type Part } from './part.ts';
import { scratch } from './support/scratch.ts';
import { shelfJournal } from './support/shelves.ts';

const entryCount = 30;

interface Sound {
  files: ReadonlyMap<string, readonly string[]>;
  heads: readonly Appended[];
}

/** Thirty entries in several files. */
async function soundJournal(within: string): Promise<Sound> {
  const journal = shelfJournal(within, { segmentBytes: 4_000 });
  await journal.open();
  const heads: Appended[] = [];
  for (let seq = 1; seq <= entryCount; seq += 1) heads.push(await journal.add(seq, [comes(`s${seq}`), comes('again')]));
  journal.close();
  const folder = join(journal.folder, 'entries-1');
  const files = readdirSync(folder).toSorted();
  return { heads, files: new Map(files.map((name) => [name, linesOf(join(folder, name))])) };
}

/** A sign for each byte, so that any byte can be put anywhere. */
const linesOf = (path: string): string[] => readFileSync(path, 'latin1').split('\n').slice(0, -1);
const entryOf = (line: string): JournalEntry =>
  JSON.parse(Buffer.from(line, 'latin1').toString('utf8')) as JournalEntry;

/** The lines of each file, for a trial to change. */
class Copy {
  readonly files: Map<string, string[]>;
  constructor({ files }: Sound) {
    this.files = new Map([...files].map(([name, lines]) => [name, [...lines]]));
  }

  placeOf(seq: number): { name: string; lines: string[]; index: number; line: string } {
    for (const [name, lines] of this.files) {
      const index = lines.findIndex((line) => entryOf(line).seq === seq);
      const line = lines[index];
      if (line !== undefined) return { name, lines, index, line };
    }
    throw new Error(`no entry ${seq}`);
  }

  /** A file of which no line is left goes with them. */
  writeTo(folder: string): string {
    for (const [name, lines] of this.files)
      if (lines.length > 0) writeFileSync(join(folder, name), lines.map((line) => `${line}\n`).join(''), 'latin1');
    return folder;
  }
}

/** What was done, and the first entry that is then not whole and in its place. */
type Tampering = (copy: Copy, chance: Dice) => number;

const anySeq = (chance: Dice, most = entryCount): number => chance.whole(1, most);

const tamperings: Record<string, Tampering> = {
  edit(copy, chance) {
    const seq = anySeq(chance);
    const { lines, index, line } = copy.placeOf(seq);
    const at = chance.whole(0, line.length - 1);
    const byte = ((line.codePointAt(at) ?? 0) + chance.whole(1, 255)) % 256;
    lines[index] = line.slice(0, at) + String.fromCodePoint(byte) + line.slice(at + 1);
    return seq;
  },
  deletion(copy, chance) {
    const seq = anySeq(chance, entryCount - 1);
    const { lines, index } = copy.placeOf(seq);
    lines.splice(index, 1);
    return seq;
  },
  swap(copy, chance) {
    const one = anySeq(chance, entryCount - 1);
    const other = chance.whole(one + 1, entryCount);
    const [first, second] = [copy.placeOf(one), copy.placeOf(other)];
    first.lines[first.index] = second.line;
    second.lines[second.index] = first.line;
    return one;
  },
  duplicate(copy, chance) {
    const seq = anySeq(chance);
    const { lines, index, line } = copy.placeOf(seq);
    lines.splice(index, 0, line);
    return seq + 1;
  },
  insertion(copy, chance) {
    const seq = anySeq(chance);
    const { lines, index, line } = copy.placeOf(seq);
    const { hash: _hash, ...body } = entryOf(line);
    lines.splice(index, 0, sealed({ ...body, prevHash: 'f'.repeat(64), user: 'Nobody' }));
    return seq;
  },
  'made anew'(copy, chance) {
    const seq = anySeq(chance, entryCount - 1);
    const { lines, index, line } = copy.placeOf(seq);
    const { hash: _hash, ...body } = entryOf(line);
    lines[index] = sealed({ ...body, user: 'Somebody else' });
    return seq + 1;
  },
};

const sealed = (body: Parameters<typeof seal>[0]): string => seal(body).line.toString('latin1').trimEnd();
const kinds = Object.keys(tamperings);

export const tampering: Part = {
  of: 'F14',
  fault: 'a line of the journal edited, deleted, swapped, doubled, put in or made anew',
  trials: 600,
  async open() {
    const own = scratch();
    const sound = await soundJournal(own.folder());
    return {
      async trial(n, chance) {
        const kind = kinds[n % kinds.length] ?? 'edit';
        const copy = new Copy(sound);
        const seq = tamperings[kind]?.(copy, chance) ?? 0;
        const { damage } = await verify(copy.writeTo(own.folder()), realDisk);
        must(damage !== null, 'undetected', `${kind} at entry ${seq}`);
        mustEqual(damage.intactSeq, seq - 1, 'undetected', `${kind}: the last entry before it`);
        must(/^\d{12}\.jsonl$/.test(damage.file) && damage.line >= 1, 'broken', `${kind}: ${JSON.stringify(damage)}`);
        must(damage.reason !== '', 'broken', `${kind}: no reason`);
      },
      close: () => own.clear(),
    };
  },
};

/** A cut chain is whole in itself: what shows it is a head that stands on paper. */
export const cutTail: Part = {
  of: 'F14',
  fault: 'the journal’s end cut off, or another history in its place, against a printed head',
  trials: 120,
  async open() {
    const own = scratch();
    const sound = await soundJournal(own.folder());
    const other = await soundJournal(own.folder());
    return {
      async trial(n, chance) {
        const keep = chance.whole(0, entryCount - 1);
        const printed: PrintedHead | undefined = sound.heads[chance.whole(keep, entryCount - 1)];
        if (printed === undefined) throw new Error('no head');
        const isOther = n % 6 === 5;
        const copy = new Copy(isOther ? other : sound);
        if (!isOther)
          for (const [name, lines] of copy.files)
            copy.files.set(
              name,
              lines.filter((line) => entryOf(line).seq <= keep),
            );
        const folder = copy.writeTo(own.folder());
        mustEqual((await verify(folder, realDisk)).damage, null, 'broken', 'a cut journal in itself');
        const byHash = chance.chance(0.3) ? { seq: null, hash: printed.hash.slice(0, 8) } : printed;
        const { damage } = await verify(folder, realDisk, byHash);
        must(damage !== null, 'undetected', `cut behind entry ${keep}, with the head of entry ${printed.seq}`);
        must(damage.reason.includes('printed'), 'broken', damage.reason);
      },
      close: () => own.clear(),
    };
  },
};
