/** Acceptance line R16: what was done to a journal's files is found, with its place. */
import { cpSync, readdirSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { realDisk } from '../../electron/files/disk.ts';
import { seal } from '../../electron/journal/entry.ts';
import { verify } from '../../electron/journal/verify.ts';
import type { Appended, JournalEntry } from '../../shared-types/journal.ts';
import { expectSurvived } from '../campaign/support/survived.ts';
import { cutTail, tampering } from '../campaign/tamper.ts';
import { comes, journalUnderTest, linesIn, segmentPaths } from './support/journalUnderTest.ts';
import { scratchFolder } from './support/site.ts';

const entryCount = 30;
let sound = '';
let heads: Appended[] = [];

/** Thirty entries in several files. */
beforeAll(async () => {
  const journal = await soundJournal();
  sound = journal.folder;
  heads = journal.heads;
});

async function soundJournal(): Promise<{ folder: string; heads: Appended[] }> {
  const { journalIn } = await import('../../electron/journal/journal.ts');
  const { request, steadyClock } = await import('./support/journalUnderTest.ts');
  const folder = join(scratchFolder(), 'journal');
  const journal = journalIn({ folder, clock: steadyClock(), segmentBytes: 4_000 });
  await journal.open();
  const answers: Appended[] = [];
  for (let seq = 1; seq <= entryCount; seq += 1) {
    answers.push(await journal.append(request(seq, { changes: [comes(`s${seq}`), comes('again')] }), () => true));
  }
  journal.close();
  return { folder, heads: answers };
}

/** The lines of each file, for a test to change and put back. */
function tampered(change: (files: Map<string, string[]>) => void): string {
  const folder = join(scratchFolder(), 'entries');
  cpSync(join(sound, 'entries-1'), folder, { recursive: true });
  const files = new Map(
    readdirSync(folder)
      .toSorted()
      .map((name) => [name, readFileSync(join(folder, name), 'utf8').split('\n').slice(0, -1)]),
  );
  change(files);
  for (const [name, lines] of files) writeFileSync(join(folder, name), lines.map((line) => `${line}\n`).join(''));
  return folder;
}

function placeOf(files: Map<string, string[]>, seq: number): { name: string; lines: string[]; index: number } {
  for (const [name, lines] of files) {
    const index = lines.findIndex((line) => (JSON.parse(line) as JournalEntry).seq === seq);
    if (index >= 0) return { name, lines, index };
  }
  throw new Error(`no entry ${seq}`);
}

/** What verification must say of the files in `folder`: the first entry that is not whole and in its place. */
async function expectFound(folder: string, seq: number): Promise<void> {
  const { damage } = await verify(folder, realDisk);
  expect(damage?.intactSeq).toBe(seq - 1);
  expect(damage?.file).toMatch(/^\d{12}\.jsonl$/);
  expect(damage?.line).toBeGreaterThanOrEqual(1);
  expect(damage?.reason).not.toBe('');
}

describe('a sound journal', () => {
  it('verifies, in several files, with and without its printed head', async () => {
    expect(segmentPaths(sound).length).toBeGreaterThan(4);
    const folder = tampered(() => undefined);
    const last = heads.at(-1);
    expect(await verify(folder, realDisk)).toMatchObject({ damage: null, torn: null, tally: { seq: entryCount } });
    expect((await verify(folder, realDisk, last)).damage).toBeNull();
    expect((await verify(folder, realDisk, { seq: 7, hash: heads[6]?.hash.slice(0, 8) ?? '' })).damage).toBeNull();
  });
});

describe('tampering is found at its entry', () => {
  it('a line edited, deleted, swapped, doubled, put in, or made anew', () => expectSurvived(tampering, 400));

  it('an entry that follows the one before it by its hash, and not by its number', async () => {
    for (const number of [entryCount - 1, entryCount + 1]) {
      const folder = tampered((files) => {
        const { lines, index } = placeOf(files, entryCount);
        const { hash: _hash, ...body } = JSON.parse(lines[index] ?? '') as JournalEntry;
        lines[index] = seal({ ...body, seq: number })
          .line.toString()
          .trimEnd();
      });
      await expectFound(folder, entryCount);
    }
  });

  it.each<[string, (line: string) => string]>([
    ['a space after a colon', (line) => line.replace('":', '": ')],
    ['a space at the end', (line) => `${line} `],
    ['a carriage return at the end', (line) => `${line}\r`],
    ['an escape for a letter', (line) => line.replace('Example', '\\u0045xample')],
    ['a field named twice', (line) => line.replace('"user":', '"user":"x","user":')],
    ['another order of fields', (line) => line.replace(/^\{("action":"edit"),(.*)\}$/, '{$2,$1}')],
    ['a number written otherwise', (line) => line.replace(/"schema":(\d+)/, '"schema":$1.0')],
    ['an empty line before', (line) => `\n${line}`],
  ])('a line that means the same, with %s', async (_what, change) => {
    const folder = tampered((files) => {
      const { lines, index } = placeOf(files, 12);
      const line = lines[index] ?? '';
      expect(change(line)).not.toBe(line);
      lines[index] = change(line);
    });
    await expectFound(folder, 12);
  });

  it('a file that is gone, emptied, or called otherwise', async () => {
    const names = segmentPaths(sound).map((path) => path.slice(-'000000000001.jsonl'.length));
    for (const [index, name] of names.slice(0, -1).entries()) {
      const folder = tampered((files) => void files.delete(name));
      rmSync(join(folder, name));
      await expectFound(folder, Number(name.slice(0, 12)));
      const emptied = tampered(() => undefined);
      truncateSync(join(emptied, name), 0);
      await expectFound(emptied, Number(name.slice(0, 12)));
      const cut = tampered(() => undefined);
      const path = join(cut, name);
      // The line feed at the end of a file that is not the last.
      truncateSync(path, readFileSync(path).length - 1);
      await expectFound(cut, Number(names[index + 1]?.slice(0, 12)) - 1);
    }
    const renamed = tampered((files) => {
      files.set('000000000002.jsonl', files.get(names[1] ?? '') ?? []);
      files.delete(names[1] ?? '');
    });
    rmSync(join(renamed, names[1] ?? ''));
    await expectFound(renamed, Number(names[1]?.slice(0, 12)));
  });

  it('names the file and the line', async () => {
    const folder = tampered((files) => {
      const { lines, index } = placeOf(files, 20);
      lines[index] = (lines[index] ?? '').replace('A. Example', 'B. Example');
    });
    const { damage } = await verify(folder, realDisk);
    const lines = readFileSync(join(folder, damage?.file ?? ''), 'utf8').split('\n');
    expect(lines[(damage?.line ?? 0) - 1]).toContain('B. Example');
    expect(damage?.reason).toBe('its content is not what its hash says');
  });
});

describe('a tail that was cut', () => {
  it('is whole in itself, and found by the printed head', () => expectSurvived(cutTail, 100));

  it('is found where another history was written in its place', async () => {
    const other = (await soundJournal()).folder;
    const printed = heads[14];
    const { damage } = await verify(join(other, 'entries-1'), realDisk, printed);
    expect(damage).toMatchObject({ intactSeq: 15, reason: 'its hash is not the one printed' });
    expect((await verify(join(other, 'entries-1'), realDisk, { seq: 15, hash: '' })).damage).not.toBeNull();
  });
});

describe('a journal that was tampered with', () => {
  it('takes nothing, changes nothing, and can still be read up to the damage', async () => {
    const journal = journalUnderTest();
    await journal.open();
    for (let seq = 1; seq <= 6; seq += 1) await journal.add(seq);
    const [path = ''] = segmentPaths(journal.folder);
    writeFileSync(path, `${readFileSync(path, 'utf8').replace('Add shelf 4', 'Add shelf 5')}torn`);
    const bytes = readFileSync(path);
    expect(await journal.open()).toMatchObject({ seq: 3, tail: null, damage: { intactSeq: 3 } });
    await expect(journal.add(4)).rejects.toThrow(/damaged/);
    await expect(journal.add(7)).rejects.toThrow(/damaged/);
    expect(readFileSync(path).equals(bytes)).toBe(true);
    expect((await journal.read({ from: 1 })).entries.map(({ seq }) => seq)).toEqual([1, 2, 3]);
    expect(linesIn(journal.folder)).toHaveLength(6);
  });
});
