/**
 * A file with everything is read, judged and compared off the page's own thread: what crosses over is counted, no message holds more than
 * a piece, and the page breathes between two. With `BAGWRIGHT_WHOLE=1` of 50,000 records.
 */
import { createHash } from 'node:crypto';
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { everythingBytesMax } from '../../renderer/engine/everything/everythingBytes.ts';
import { snapshotText } from '../../renderer/engine/everything/readSnapshotText.ts';
import { RefusedError } from '../../renderer/engine/errors.ts';
import { startEverything } from '../../renderer/workers/everything.ts';
import { everythingDesk } from '../../renderer/workers/everythingDesk.ts';
import { faultsMost, recordsPiece, textPiece } from '../../renderer/workers/everythingMessages.ts';
import type { EverythingAsked, EverythingTold } from '../../renderer/workers/everythingMessages.ts';
import type { AnyRecord, TableName } from '../../shared-types/records/index.ts';

const digest = (text: string): Promise<string> => Promise.resolve(createHash('sha256').update(text).digest('hex'));
const count = process.env['BAGWRIGHT_WHOLE'] === '1' ? 50_000 : 3000;

/** What crossed over since, with the turn of the page it was posted in. */
let asked: { message: EverythingAsked; turn: number }[] = [];
let told: EverythingTold[] = [];
let ended = 0;
let turn = 0;

/** A worker in the same process; what crosses over is a copy, and comes in a turn of its own, as in a browser. */
class WorkerHere extends EventTarget {
  private last = Promise.resolve();
  private isEnded = false;
  private readonly answer = everythingDesk((message) => {
    told.push(message);
    const data = structuredClone(message);
    setTimeout(() => void (this.isEnded || this.dispatchEvent(new MessageEvent('message', { data }))));
  }, digest);

  postMessage(message: EverythingAsked): void {
    asked.push({ message, turn });
    const data = structuredClone(message);
    this.last = this.last.then(() => this.answer(data));
  }

  terminate(): void {
    this.isEnded = true;
    ended += 1;
  }
}

const items = (from: number, to: number, notes: string): [string, AnyRecord][] =>
  Array.from({ length: to - from }, (_, at): [string, AnyRecord] => {
    const id = `i-${String(from + at).padStart(6, '0')}`;
    const thing = { kind: 'fastener', thread: 'M6', head: { form: 'hex', acrossFlats: '10 mm' } };
    const kept = { id, rev: 1, code: `F-${from + at}`, shelf: 'crew', retired: false, parts: 1, kit: 'both', notes };
    return [id, { ...kept, ...thing } as unknown as AnyRecord];
  });

type Tables = Map<TableName, Map<string, AnyRecord>>;
const shelf = { id: 'crew', rev: 1, name: 'Crew' } as unknown as AnyRecord;
const tablesOf = (all: [string, AnyRecord][]): Tables =>
  new Map<TableName, Map<string, AnyRecord>>([
    ['shelves', new Map([['crew', shelf]])],
    ['items', new Map(all)],
  ]);
const textOf = (tables: Tables): Promise<string> =>
  snapshotText(
    { seq: 1, hash: '0'.repeat(64), deviceId: '0'.repeat(32), utc: '2031-04-05T10:20:30.000Z', why: 'asked' },
    tables,
    digest,
  );

beforeEach(() => {
  [asked, told, ended, turn] = [[], [], 0, 0];
  vi.stubGlobal('Worker', WorkerHere);
});
afterEach(() => vi.unstubAllGlobals());

describe('a file with everything', () => {
  it('crosses over in pieces, and comes back as what is shown of it; its records only when they are to be written', async () => {
    const text = await textOf(tablesOf(items(0, count, 'theirs')));
    const here = tablesOf(items(count / 2, count + 10, 'ours'));
    const ticking = setInterval(() => (turn += 1));
    const reading = startEverything();
    const doing: string[] = [];
    const read = await reading.read({ name: 'a.snapshot', text }, (words) => doing.push(words));
    expect(read).toMatchObject({ kind: 'snapshot', made: '2031-04-05T10:20:30.000Z' });
    expect(doing).toEqual([`Looking ${count + 1} records of a.snapshot through`]);
    await reading.hold(here);
    const found = await reading.look('take');
    if (!('looked' in found)) throw new Error('it cannot be brought in');
    expect(found.looked).toMatchObject({
      puts: count,
      differing: { count: count / 2, choices: count / 2 },
      tables: [
        { table: 'shelves', added: 0, differs: 0, same: 1, onlyHere: 0 },
        { table: 'items', added: count / 2, differs: count / 2, same: 0, onlyHere: 10 },
      ],
    });
    expect(found.looked.differing.first).toHaveLength(100);
    const beforePuts = told.length;
    expect(beforePuts).toBe(3);
    const puts = await reading.puts();
    clearInterval(ticking);
    expect(puts).toHaveLength(count);
    expect(new Set(puts.map(({ record }) => record.id)).size).toBe(count);
    expect(puts[0]?.record).toMatchObject({ notes: 'theirs' });

    // No message is more than a piece, and no turn of the page posts two with records in them.
    const pieces = asked.flatMap(({ message }) => (message.kind === 'here' ? [message.records.length] : []));
    expect(Math.max(...pieces)).toBeLessThanOrEqual(recordsPiece);
    expect(pieces.reduce((sum, size) => sum + size, 0)).toBe(count / 2 + 11);
    for (const { message } of asked)
      if (message.kind === 'text') expect(message.piece.length).toBeLessThanOrEqual(textPiece);
    for (const message of told.slice(beforePuts))
      expect(message.kind === 'puts' && message.puts.length <= recordsPiece).toBe(true);
    expect(told.slice(beforePuts)).toHaveLength(Math.ceil(count / recordsPiece));
    const shown = JSON.stringify(told.slice(0, beforePuts)).length;
    expect(shown).toBeLessThan(100_000);
    reading.end();
    expect(ended).toBe(1);
  });

  it('hands a long text over piece by piece, the page breathing between two, and it is read as one', async () => {
    const text = await textOf(tablesOf(items(0, 3000, 'x'.repeat(1900))));
    expect(text.length).toBeGreaterThan(textPiece);
    const breaths = vi.spyOn(globalThis, 'setTimeout');
    const reading = startEverything();
    await reading.read({ name: 'a', text }, () => undefined);
    const pieces = asked.map(({ message }) => (message.kind === 'text' ? message.piece : ''));
    expect(pieces.join('') === text).toBe(true);
    expect(pieces.length).toBe(Math.ceil(text.length / textPiece));
    expect(breaths.mock.calls.length).toBeGreaterThanOrEqual(pieces.length - 1);
    breaths.mockRestore();
    reading.end();
  });

  it('that is larger than is read is refused before any of it crosses over', async () => {
    const reading = startEverything();
    const refused = reading.read({ name: 'a', text: ' '.repeat(everythingBytesMax + 1) }, () => undefined);
    await expect(refused).rejects.toMatchObject({ refusal: { code: 'too-large', file: 'a' } });
    expect(asked).toEqual([]);
    reading.end();
  });

  it('that is stopped is answered no more, and nothing further crosses over', async () => {
    const text = await textOf(tablesOf(items(0, 1000, 'theirs')));
    const reading = startEverything();
    let answered = false;
    const reads = reading.read({ name: 'a', text }, () => undefined).finally(() => (answered = true));
    void reads.catch(() => undefined);
    reading.end();
    await reading.hold(tablesOf(items(0, 1000, 'ours')));
    await new Promise((resolve) => setTimeout(resolve, 50));
    expect([answered, ended]).toEqual([false, 1]);
    expect(asked.every(({ message }) => message.kind === 'text')).toBe(true);
  });

  it('with more faults than anybody reads names the first and says how many more there are', async () => {
    const orphans = items(0, faultsMost + 200, 'theirs').map(([id, record]): [string, AnyRecord] => [
      id,
      { ...record, shelf: 'nowhere' } as unknown as AnyRecord,
    ]);
    const text = await textOf(tablesOf(orphans));
    const reading = startEverything();
    const error: unknown = await reading.read({ name: 'a', text }, () => undefined).catch((cause: unknown) => cause);
    if (!(error instanceof RefusedError)) throw new Error('not refused');
    expect(error.refusal.rows).toHaveLength(faultsMost + 1);
    expect(error.refusal.rows?.at(-1)?.message).toBe('There are 200 more faults.');
    reading.end();
  });
});

it('is read and compared by nothing else of the page: its screens know only the shapes of the answer', () => {
  const folder = 'renderer/features';
  const names = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((name) => /\.tsx?$/.test(name));
  expect(names.length).toBeGreaterThan(100);
  const reads = /^import (?!type\b)[^;]*\/(?:readEverything|lookedInto|intoHere|outcomeFaults)\.ts'/m;
  expect(reads.test("import { readEverything } from '../../engine/everything/readEverything.ts';")).toBe(true);
  expect(names.filter((name) => reads.test(readFileSync(join(folder, name), 'utf8')))).toEqual([]);
});
