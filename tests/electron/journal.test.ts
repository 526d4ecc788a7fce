/** The journal on the disk: what is written, what is answered, what is refused. */
import { randomUUID } from 'node:crypto';
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { canonicalJson } from '../../shared-types/canonicalJson.ts';
import { entrySchema, emptyHash, recentMost, type Change, type JournalEntry } from '../../shared-types/journal.ts';
import { recordsVersion, tableNames } from '../../shared-types/records/index.ts';
import {
  comes,
  goes,
  journalUnderTest,
  linesIn,
  refusalOf,
  request,
  segmentPaths,
} from './support/journalUnderTest.ts';

const always = (): boolean => true;
const none = Object.fromEntries(tableNames.map((name) => [name, 0]));

describe('an empty journal', () => {
  it('says so, and has a number, a database and a folder of its own', async () => {
    const journal = journalUnderTest();
    expect(await journal.open()).toEqual({
      seq: 0,
      hash: emptyHash,
      counts: none,
      schema: recordsVersion,
      database: 'bagwright-1',
      damage: null,
      tail: null,
      further: null,
      recent: [],
    });
    expect(readFileSync(join(journal.folder, 'device'), 'utf8')).toMatch(/^[0-9a-f]{32}\n$/);
    expect(readdirSync(join(journal.folder, 'entries-1'))).toEqual([]);
  });

  it('takes nothing before it is opened, and nothing after it is closed', async () => {
    const journal = journalUnderTest();
    expect(await refusalOf(journal.add(1))).toMatchObject({ code: 'not-available' });
    expect(await refusalOf(journal.read({ from: 1 }))).toMatchObject({ code: 'not-available' });
    await journal.open();
    await journal.add(1);
    journal.close();
    expect(await refusalOf(journal.add(2))).toMatchObject({ code: 'not-available' });
    expect(await refusalOf(journal.open())).toMatchObject({ code: 'not-available' });
    expect(linesIn(journal.folder)).toHaveLength(1);
  });
});

describe('an entry', () => {
  it('is one line of canonical JSON, chained to the one before', async () => {
    const journal = journalUnderTest();
    await journal.open();
    const [first, second] = [await journal.add(1), await journal.add(2, { title: 'Größe ½ "neu"\n\u2028' })];
    const entries = linesIn(journal.folder).map((line) => JSON.parse(line) as JournalEntry);
    for (const [index, line] of linesIn(journal.folder).entries()) expect(canonicalJson(entries[index])).toBe(line);
    expect(entries.map((entry) => entrySchema.parse(entry).seq)).toEqual([1, 2]);
    expect(entries.map(({ prevHash }) => prevHash)).toEqual([emptyHash, first.hash]);
    expect(entries[1]).toMatchObject({
      hash: second.hash,
      utc: second.utc,
      deviceId: readFileSync(join(journal.folder, 'device'), 'utf8').trim(),
      tzOffset: 60,
      user: 'A. Example',
      action: 'edit',
      schema: recordsVersion,
    });
  });

  it('is hashed as anybody can hash it', async () => {
    const journal = journalUnderTest();
    await journal.open();
    // What the fields hold may look like the hash's own place.
    await journal.add(1, { title: `"hash":"${'0'.repeat(64)}","payload":` });
    const { hash, ...body } = JSON.parse(linesIn(journal.folder)[0] ?? '') as JournalEntry;
    const digest = await crypto.subtle.digest('SHA-256', new TextEncoder().encode(anybodysText(body)));
    expect(Buffer.from(digest).toString('hex')).toBe(hash);
    expect((await journal.open()).damage).toBeNull();
  });

  it('comes back from the disk as it was given', async () => {
    const journal = journalUnderTest();
    await journal.open();
    const asked = request(1, { changes: [comes('a', 'Ünï ½ \u0000 𝟙'), comes('b')], undoable: false });
    await journal.append(asked, always);
    const { entries, next } = await journal.read({ from: 1 });
    expect(next).toBeNull();
    expect(entries.map(({ payload }) => payload)).toEqual([asked.payload]);
  });

  it('has one text for one value, whatever the order of its fields', () => {
    fc.assert(
      fc.property(fc.jsonValue(), (value) => {
        const text = canonicalJson(value);
        expect(canonicalJson(JSON.parse(text))).toBe(text);
        expect(JSON.parse(text)).toEqual(JSON.parse(JSON.stringify(value)));
      }),
    );
    expect(canonicalJson({ b: 1, a: [-0, 1e21, 1e-7], '\u20ac': '\u20ac', '\r': 1, '1': undefined, 10: 2 })).toBe(
      '{"\\r":1,"10":2,"a":[0,1e+21,1e-7],"b":1,"€":"€"}',
    );
  });
});

/** The entry's text by JSON's own writer: an entry's names are letters, which objects keep in the order given. */
function anybodysText(entry: object): string {
  return JSON.stringify(entry, (_name, held: unknown) =>
    typeof held === 'object' && held !== null && !Array.isArray(held)
      ? Object.fromEntries(Object.entries(held).toSorted(([a], [b]) => (a < b ? -1 : 1)))
      : held,
  );
}

describe('what an append is refused for', () => {
  it.each([0, 1, 3, 4, 1e9])('a sequence that is not the next: %d after 1', async (seq) => {
    const journal = journalUnderTest();
    await journal.open();
    await journal.add(1);
    expect(await refusalOf(journal.add(seq))).toMatchObject({ code: 'behind', value: seq });
    expect(linesIn(journal.folder)).toHaveLength(1);
    expect((await journal.add(2)).seq).toBe(2);
  });

  it('want of the right to write, asked at the moment of writing', async () => {
    const journal = journalUnderTest();
    await journal.open();
    let right = true;
    const first = journal.append(request(1), () => right);
    const second = journal.append(request(2), () => right);
    await first.then(() => (right = false));
    expect(await refusalOf(second)).toMatchObject({ code: 'not-writer' });
    expect(await refusalOf(journal.setDatabase({ name: 'b' }, () => right))).toMatchObject({ code: 'not-writer' });
    expect(await refusalOf(journal.beginAgain({ keepThrough: 0 }, () => right))).toMatchObject({ code: 'not-writer' });
    expect(linesIn(journal.folder)).toHaveLength(1);
  });

  const polluted = JSON.parse('{"id":"a","rev":1,"name":"x","__proto__":{"polluted":true}}') as Record<string, unknown>;
  let deep: unknown = 'x';
  for (let level = 0; level < 100_000; level += 1) deep = [deep];
  const after = (value: Record<string, unknown>): Change => ({ table: 'shelves', id: 'a', before: null, after: value });
  const shelf = { id: 'a', rev: 1, name: 'x' };

  it.each<[string, string, Change]>([
    ['a prototype in a record', 'forbidden-key', after(polluted)],
    ['a prototype before', 'forbidden-key', { ...after(shelf), before: polluted }],
    ['a constructor', 'forbidden-key', after({ ...shelf, constructor: { prototype: 1 } })],
    ['a hundred thousand levels', 'too-deep', { ...after(shelf), before: { id: 'a', deep } }],
    ['no number', 'not-finite', after({ ...shelf, rev: Number.NaN })],
    ['an endless number', 'not-finite', { ...after(shelf), before: { rev: Infinity } }],
    ['a date', 'wrong-shape', { ...after(shelf), before: { at: new Date(0) } }],
    ['a hole in a list', 'wrong-shape', { ...after(shelf), before: { list: [undefined] } }],
    ['a large number', 'wrong-shape', { ...after(shelf), before: { big: 1n } }],
    ['a field the record has not', 'wrong-shape', after({ ...shelf, colour: 'red' })],
    ['a field too few', 'wrong-shape', after({ id: 'a', rev: 1 })],
    ['another record', 'wrong-shape', { ...after(shelf), id: 'b' }],
    ['another table', 'wrong-shape', { ...after(shelf), table: 'items' }],
    ['no table', 'wrong-shape', { ...after(shelf), table: 'people' as 'items' }],
  ])('%s (%s)', async (_what, code, change) => {
    const journal = journalUnderTest();
    await journal.open();
    expect(await refusalOf(journal.add(1, { changes: [comes('ok'), change] }))).toMatchObject({
      code,
      field: expect.stringMatching(/^payload\.changes\.1/) as string,
    });
    expect(linesIn(journal.folder)).toEqual([]);
    expect(({} as { polluted?: boolean }).polluted).toBeUndefined();
    expect((await journal.open()).damage).toBeNull();
  });

  it('more bytes than 64 MB in one', async () => {
    const journal = journalUnderTest();
    await journal.open();
    const before = { id: 'a', text: 'x'.repeat(65 * 1024 * 1024) };
    expect(await refusalOf(journal.add(1, { changes: [{ ...comes('a'), before }] }))).toMatchObject({
      code: 'too-large',
    });
    expect(linesIn(journal.folder)).toEqual([]);
  });

  it('a clock that tells no time a calendar has', async () => {
    const journal = journalUnderTest({ clock: () => ({ utc: '+010000-01-01T00:00:00.000Z', tzOffset: 0 }) });
    await journal.open();
    expect(await refusalOf(journal.add(1))).toMatchObject({ code: 'wrong-shape', field: 'utc' });
    expect((await journal.open()).damage).toBeNull();
  });

  it('records of a version that is newer than the program', async () => {
    const journal = journalUnderTest();
    await journal.open();
    await journal.add(1);
    const { seal } = await import('../../electron/journal/entry.ts');
    const { hash, ...body } = JSON.parse(linesIn(journal.folder)[0] ?? '') as JournalEntry;
    const strange = { ...comes('n'), after: { id: 'n', rev: 1, name: 'x', colour: 'red' } };
    const { line } = seal({
      ...body,
      seq: 2,
      prevHash: hash,
      schema: recordsVersion + 1,
      payload: { ...body.payload, key: randomUUID(), changes: [strange] },
    });
    writeFileSync(segmentPaths(journal.folder)[0] ?? '', line, { flag: 'a' });
    expect(await journal.open()).toMatchObject({ seq: 2, schema: recordsVersion + 1, damage: null });
    expect(await refusalOf(journal.add(3))).toMatchObject({ code: 'not-available' });
    expect(linesIn(journal.folder)).toHaveLength(2);
  });

  it('records of a table that only a newer version has: told from damage', async () => {
    const journal = journalUnderTest();
    await journal.open();
    await journal.add(1);
    const { seal } = await import('../../electron/journal/entry.ts');
    const { hash, ...body } = JSON.parse(linesIn(journal.folder)[0] ?? '') as JournalEntry;
    const strange = { ...comes('n'), table: 'sketches' as 'shelves' };
    const { line } = seal({
      ...body,
      seq: 2,
      prevHash: hash,
      schema: recordsVersion + 1,
      payload: { ...body.payload, key: randomUUID(), changes: [strange] },
    });
    writeFileSync(segmentPaths(journal.folder)[0] ?? '', line, { flag: 'a' });
    expect(await journal.open()).toMatchObject({
      seq: 2,
      schema: recordsVersion + 1,
      damage: null,
      counts: { shelves: 1 },
    });
    expect(await refusalOf(journal.add(3))).toMatchObject({ code: 'not-available' });
  });
});

describe('records of the version before', () => {
  it('are looked into, counted and written on', async () => {
    const journal = journalUnderTest();
    await journal.open();
    await journal.add(1);
    const { seal } = await import('../../electron/journal/entry.ts');
    const { hash: _hash, ...body } = JSON.parse(linesIn(journal.folder)[0] ?? '') as JournalEntry;
    const { line } = seal({ ...body, schema: recordsVersion - 1 });
    writeFileSync(segmentPaths(journal.folder)[0] ?? '', line);
    expect(await journal.open()).toMatchObject({
      seq: 1,
      schema: recordsVersion,
      damage: null,
      counts: { shelves: 1 },
    });
    await journal.add(2);
    expect(linesIn(journal.folder).map((text) => (JSON.parse(text) as JournalEntry).schema)).toEqual([
      recordsVersion - 1,
      recordsVersion,
    ]);
    const bad = seal({
      ...body,
      schema: recordsVersion - 1,
      payload: { ...body.payload, changes: [{ ...comes('a'), after: { id: 'a', rev: 1, colour: 'red' } }] },
    });
    writeFileSync(segmentPaths(journal.folder)[0] ?? '', bad.line);
    expect((await journal.open()).damage).toMatchObject({ intactSeq: 0 });
  });
});

describe('a key asked again', () => {
  it('is answered as the first time and written once, in this run and after the next start', async () => {
    const journal = journalUnderTest();
    await journal.open();
    const asked = request(1);
    const first = await journal.append(asked, always);
    await journal.add(2);
    expect(await journal.append(asked, always)).toEqual(first);
    expect(await journal.append(asked, () => false)).toEqual(first);
    await journal.open();
    expect(await journal.append({ ...asked, seq: 3 }, always)).toEqual(first);
    expect(linesIn(journal.folder)).toHaveLength(2);
  });

  it('is written once where it is asked twice at once', async () => {
    const journal = journalUnderTest();
    await journal.open();
    const asked = request(1);
    const [first, second] = await Promise.all([journal.append(asked, always), journal.append(asked, always)]);
    expect(second).toEqual(first);
    expect(linesIn(journal.folder)).toHaveLength(1);
  });

  it('is known among the last thousand', async () => {
    const journal = journalUnderTest();
    await journal.open();
    const asked = request(1);
    const first = await journal.append(asked, always);
    for (let seq = 2; seq <= 1_000; seq += 1) await journal.add(seq);
    expect(await journal.append(asked, always)).toEqual(first);
    await journal.add(1_001);
    expect(await refusalOf(journal.append(asked, always))).toMatchObject({ code: 'behind' });
  });
});

describe('what the journal tells of itself', () => {
  it('counts records as a database would hold them', async () => {
    const journal = journalUnderTest();
    await journal.open();
    await journal.add(1, { changes: [comes('a'), comes('b'), comes('c')] });
    await journal.add(2, { changes: [comes('a', 'again'), goes('b')] });
    await journal.add(3, { changes: [goes('nobody'), goes('c'), comes('c')] });
    const expected = { ...none, shelves: 2 };
    expect((await journal.open()).counts).toEqual(expected);
  });

  it('lists the newest, oldest first, and no more than it should', async () => {
    const journal = journalUnderTest();
    await journal.open();
    for (let seq = 1; seq <= recentMost + 5; seq += 1) await journal.add(seq, seq === 7 ? { of: 6 } : {});
    const { recent, seq } = await journal.open();
    expect(recent.map((head) => head.seq)).toEqual(Array.from({ length: recentMost }, (_, index) => index + 6));
    expect(seq).toBe(recentMost + 5);
    expect(recent[1]).toMatchObject({ seq: 7, of: 6, title: 'Add shelf 7', undoable: true, clockWentBack: false });
    expect(recent[0]).not.toHaveProperty('of');
  });

  it.each([
    ['a year back', '2031-04-05T10:00:00.000Z', '2030-04-05T10:00:00.000Z', true],
    ['a second back', '2031-04-05T10:00:01.000Z', '2031-04-05T10:00:00.000Z', true],
    ['a year on', '2031-04-05T10:00:00.000Z', '2032-04-05T10:00:00.000Z', false],
    ['to 1970', '2031-04-05T10:00:00.000Z', '1970-01-01T00:00:00.000Z', true],
    ['past 2038', '2038-01-19T03:14:07.000Z', '2038-01-19T03:14:08.000Z', false],
    ['to 2100', '2099-12-31T23:59:59.000Z', '2100-01-01T00:00:00.000Z', false],
  ])('flags a clock that goes back, and orders by the sequence all the same: %s', async (_how, first, second, back) => {
    const times = [first, second, '2031-01-01T00:00:00.000Z'];
    const journal = journalUnderTest({ clock: () => ({ utc: times.shift() ?? '', tzOffset: 0 }) });
    await journal.open();
    for (const seq of [1, 2, 3]) await journal.add(seq);
    const { recent, damage } = await journal.open();
    expect(recent.slice(0, 2).map(({ seq, utc, clockWentBack }) => [seq, utc, clockWentBack])).toEqual([
      [1, first, false],
      [2, second, back],
    ]);
    expect(damage).toBeNull();
  });

  it('keeps the hour’s change out of it: only the offset moves when summer time ends', async () => {
    const times = [
      { utc: '2031-10-26T00:30:00.000Z', tzOffset: 120 },
      { utc: '2031-10-26T01:10:00.000Z', tzOffset: 60 },
    ];
    const journal = journalUnderTest({ clock: () => times.shift() ?? { utc: '', tzOffset: 0 } });
    await journal.open();
    for (const seq of [1, 2]) await journal.add(seq);
    expect((await journal.open()).recent.map((head) => [head.tzOffset, head.clockWentBack])).toEqual([
      [120, false],
      [60, false],
    ]);
  });

  it('remembers which database belongs to it', async () => {
    const journal = journalUnderTest();
    await journal.open();
    await journal.setDatabase({ name: 'bagwright-2' }, always);
    expect((await journal.open()).database).toBe('bagwright-2');
    writeFileSync(join(journal.folder, 'store.json'), '{"database":');
    expect((await journal.open()).database).toBe('bagwright-1');
  });
});
