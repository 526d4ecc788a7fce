/** The journal's files: their names, their modes, their seams, how they are read, and how it begins again. */
import { chmodSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { emptyHash, type JournalEntry } from '../../shared-types/journal.ts';
import { tableNames } from '../../shared-types/records/index.ts';
import { journalUnderTest, linesIn, refusalOf, segmentPaths } from './support/journalUnderTest.ts';
import { scratchFolder } from './support/site.ts';

const always = (): boolean => true;
const none = Object.fromEntries(tableNames.map((name) => [name, 0]));
const modeOf = (path: string): number => statSync(path).mode & 0o777;

describe('the files', () => {
  it('are the user’s alone, whatever the mask and even where the folder stood open', async () => {
    const mask = process.umask(0);
    try {
      const folder = join(scratchFolder(), 'journal');
      mkdirSync(folder);
      chmodSync(folder, 0o777);
      const journal = journalUnderTest({ folder, segmentBytes: 600 });
      await journal.open();
      for (const seq of [1, 2, 3]) await journal.add(seq);
      await journal.setDatabase({ name: 'b' }, always);
      writeFileSync(segmentPaths(folder).at(-1) ?? '', 'torn', { flag: 'a' });
      await journal.open();
      await journal.beginAgain({ keepThrough: 2 }, always);
      const found = readdirSync(folder, { recursive: true, withFileTypes: true });
      expect(found.length).toBeGreaterThanOrEqual(10);
      for (const entry of found) {
        expect(modeOf(join(entry.parentPath, entry.name)), entry.name).toBe(entry.isDirectory() ? 0o700 : 0o600);
      }
      expect(modeOf(folder)).toBe(0o700);
    } finally {
      process.umask(mask);
    }
  });

  it('begin anew at their size, each named by its first entry', async () => {
    const journal = journalUnderTest({ segmentBytes: 1_500 });
    await journal.open();
    for (let seq = 1; seq <= 10; seq += 1) await journal.add(seq);
    const paths = segmentPaths(journal.folder);
    expect(paths.length).toBeGreaterThan(2);
    for (const path of paths) {
      const first = JSON.parse(readFileSync(path, 'utf8').split('\n')[0] ?? '') as JournalEntry;
      expect(path.endsWith(`${String(first.seq).padStart(12, '0')}.jsonl`)).toBe(true);
      expect(statSync(path).size).toBeLessThanOrEqual(1_500);
    }
    expect(await journal.open()).toMatchObject({ seq: 10, damage: null });
    expect((await journal.add(11)).seq).toBe(11);
  });

  it('take an entry larger than a segment', async () => {
    const journal = journalUnderTest({ segmentBytes: 300 });
    await journal.open();
    for (const seq of [1, 2, 3]) await journal.add(seq);
    expect(segmentPaths(journal.folder)).toHaveLength(3);
    expect(await journal.open()).toMatchObject({ seq: 3, damage: null });
  });
});

describe('reading', () => {
  it('gives every entry once, in pages, across the seams of files', async () => {
    const journal = journalUnderTest({ segmentBytes: 3_000, pageBytes: 2_000 });
    await journal.open();
    for (let seq = 1; seq <= 40; seq += 1) await journal.add(seq);
    for (const from of [1, 2, 17, 39, 40]) {
      const seen: number[] = [];
      let pages = 0;
      for (let next: number | null = from; next !== null; pages += 1) {
        const page = await journal.read({ from: next });
        seen.push(...page.entries.map(({ seq }) => seq));
        expect(Buffer.byteLength(JSON.stringify(page.entries))).toBeLessThan(2_400);
        next = page.next;
      }
      expect(seen).toEqual(Array.from({ length: 41 - from }, (_, index) => from + index));
      expect(pages).toBeGreaterThanOrEqual(Math.floor((41 - from) / 8));
    }
    expect(await journal.read({ from: 41 })).toEqual({ entries: [], next: null });
  });

  it('gives an entry larger than a page by itself', async () => {
    const journal = journalUnderTest({ pageBytes: 10 });
    await journal.open();
    for (const seq of [1, 2]) await journal.add(seq);
    expect(await journal.read({ from: 1 })).toMatchObject({ entries: [{ seq: 1 }], next: 2 });
    expect(await journal.read({ from: 2 })).toMatchObject({ entries: [{ seq: 2 }], next: null });
  });

  it('notices a file that was changed while it was open', async () => {
    const journal = journalUnderTest();
    await journal.open();
    for (const seq of [1, 2, 3]) await journal.add(seq);
    const [path = ''] = segmentPaths(journal.folder);
    writeFileSync(path, readFileSync(path, 'utf8').replace('Add shelf 2', 'Add shelf 9'));
    expect(await refusalOf(journal.read({ from: 1 }))).toMatchObject({
      code: 'unreadable-file',
      file: '000000000001.jsonl',
      row: 2,
    });
  });
});

describe('beginning again', () => {
  it('keeps the entries asked for, byte for byte, and the former files where they are', async () => {
    const journal = journalUnderTest({ segmentBytes: 1_500 });
    await journal.open();
    for (let seq = 1; seq <= 10; seq += 1) await journal.add(seq);
    const before = linesIn(journal.folder);
    const { state, setAside } = await journal.beginAgain({ keepThrough: 7 }, always);
    expect(setAside).toBe('entries-1');
    expect(state).toMatchObject({ seq: 7, damage: null, counts: { ...none, shelves: 7 } });
    expect(linesIn(journal.folder, 'entries-1')).toEqual(before);
    expect(linesIn(journal.folder, 'entries-2')).toEqual(before.slice(0, 7));
    expect((await journal.add(8)).seq).toBe(8);
    expect((await journal.open()).seq).toBe(8);
  });

  it('begins empty where nothing is kept, and does so again', async () => {
    const journal = journalUnderTest();
    await journal.open();
    await journal.add(1);
    expect((await journal.beginAgain({ keepThrough: 0 }, always)).state).toMatchObject({ seq: 0, hash: emptyHash });
    await journal.add(1);
    expect((await journal.beginAgain({ keepThrough: 0 }, always)).setAside).toBe('entries-2');
    expect(linesIn(journal.folder, 'entries-1')).toHaveLength(1);
    expect(linesIn(journal.folder, 'entries-2')).toHaveLength(1);
    expect(linesIn(journal.folder, 'entries-3')).toEqual([]);
  });

  it('mends a damaged one up to the damage, and no further', async () => {
    const journal = journalUnderTest();
    await journal.open();
    for (let seq = 1; seq <= 5; seq += 1) await journal.add(seq);
    const [path = ''] = segmentPaths(journal.folder);
    writeFileSync(path, readFileSync(path, 'utf8').replace('Add shelf 4', 'Add shelf 9'));
    expect(await journal.open()).toMatchObject({ seq: 3, damage: { intactSeq: 3, line: 4 } });
    expect(await refusalOf(journal.add(4))).toMatchObject({ code: 'disk' });
    expect(await refusalOf(journal.beginAgain({ keepThrough: 4 }, always))).toMatchObject({ code: 'out-of-range' });
    const { state } = await journal.beginAgain({ keepThrough: 3 }, always);
    expect(state).toMatchObject({ seq: 3, damage: null });
    expect((await journal.add(4)).seq).toBe(4);
  });
});
