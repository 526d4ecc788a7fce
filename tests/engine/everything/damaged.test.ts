/** Files with everything that are not what they were: each is refused with its reason, and none is taken for whole. */
import { describe, expect, it } from 'vitest';
import { isEverything } from '../../../renderer/engine/everything/isEverything.ts';
import { readEverything } from '../../../renderer/engine/everything/readEverything.ts';
import { snapshotText } from '../../../renderer/engine/everything/readSnapshotText.ts';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { recordsVersion } from '../../../shared-types/records/index.ts';
import { goldenTables } from '../../support/released/index.ts';
import { dice } from '../../reference/dice.ts';
import { digest, released } from './released.ts';

const seed = Number(process.env['BAGWRIGHT_SEED'] ?? 4711);
const newest = released.at(-1);
if (newest?.snapshot == null) throw new Error('no snapshot is kept of the version before');
const { snapshot, everything } = newest;

async function refusalOf(text: string) {
  const error: unknown = await readEverything(text, 'file', digest).then(
    () => null,
    (cause: unknown) => cause,
  );
  if (!(error instanceof RefusedError)) throw new Error(`not refused: ${String(error)}`);
  expect(error.refusal.file).toBe('file');
  expect(error.message.length).toBeGreaterThan(10);
  return error.refusal;
}

const summed = async (text: string): Promise<string> => {
  const body = text.slice(0, text.lastIndexOf('\n', text.length - 2) + 1);
  return `${body}{"end":"${await digest(body)}"}\n`;
};

describe('a file with everything', () => {
  it.each([
    ['snapshot', snapshot],
    ['export', everything],
  ])('(%s) is refused where it is cut, at each of fifty places', async (_kind, text) => {
    const chance = dice(seed);
    const cuts = Array.from({ length: 50 }, () => chance.whole(0, text.length - 2));
    for (const cut of cuts) expect(await refusalOf(text.slice(0, cut)), `cut at ${cut}`).toHaveProperty('code');
  });

  it('that is a snapshot is refused where one sign of it is another, two hundred times', async () => {
    const chance = dice(seed + 1);
    for (let turn = 0; turn < 200; turn += 1) {
      const at = chance.whole(0, snapshot.length - 1);
      const other = snapshot[at] === 'x' ? 'y' : 'x';
      const refusal = await refusalOf(`${snapshot.slice(0, at)}${other}${snapshot.slice(at + 1)}`);
      expect(refusal.code, `sign ${at}`).toMatch(/^(?:unreadable-file|not-json)$/);
    }
  });

  it('that is an export is never taken for another where one sign of an entry is another: its working copy is, or it is refused', async () => {
    const chance = dice(seed + 2);
    const golden = [...goldenTables(newest)].map(([name, rows]) => [name, rows.size]);
    const end = everything.indexOf('"count":');
    for (let turn = 0; turn < 40; turn += 1) {
      const at = chance.whole(everything.indexOf('"entries":['), end);
      const text = `${everything.slice(0, at)}${everything[at] === 'x' ? 'y' : 'x'}${everything.slice(at + 1)}`;
      const read = await readEverything(text, 'file', digest).catch((cause: unknown) => cause);
      if (read instanceof RefusedError) continue;
      expect(read, `sign ${at}`).toMatchObject({ by: { half: 'copy' } });
      const { tables } = read as Awaited<ReturnType<typeof readEverything>>;
      expect(golden.map(([name]) => [name, tables.get(name as 'items')?.size])).toEqual(golden);
    }
  });

  it.each<[what: string, text: () => string | Promise<string>, says: RegExp, more: object]>([
    ['is empty', () => '', /./, { code: 'not-json' }],
    ['is something else', () => '{"bagwright":"plan"}', /neither a snapshot nor everything/, { field: 'bagwright' }],
    ['is a list', () => '[]', /neither a snapshot nor everything/, {}],
    ['has a form of later', () => everything.replace('"form":1', '"form":2'), /form 2; this program knows form 1/, {}],
    [
      'has records of later',
      () => everything.replaceAll(`"schema":${newest.version}`, `"schema":${recordsVersion + 3}`),
      new RegExp(`records of version ${recordsVersion + 3}; this program knows version ${recordsVersion}`),
      { code: 'not-available', field: 'journal.entries' },
    ],
    [
      'is a snapshot of later records',
      () => summed(snapshot.replace(/"records":\d+/, '"records":99')),
      /records of version 99; this program knows/,
      {},
    ],
    [
      'has a field that would change what an object is',
      () => everything.replace('"form":1', '"form":1,"__proto__":{}'),
      /./,
      { code: 'forbidden-key' },
    ],
    ['names a field twice', () => everything.replace('"form":1', '"form":1,"form":1'), /./, { code: 'duplicate-key' }],
    ['is nested without end', () => `{"bagwright":"everything","form":${'['.repeat(5000)}`, /./, { code: 'too-deep' }],
    [
      'has a field of none of ours',
      () => everything.replace('"form":1', '"form":1,"odd":1'),
      /odd/,
      { code: 'wrong-shape', row: 1 },
    ],
    [
      'is a snapshot with a record whose shelf is not there, by every sum of its own',
      async () => {
        const tables = goldenTables(newest);
        tables.get('shelves')?.delete('crew');
        const frame = { seq: 7, hash: 'a'.repeat(64), deviceId: 'b'.repeat(32), utc: '2031-04-05T10:20:30.000Z' };
        return await snapshotText({ ...frame, why: 'asked' }, tables, digest);
      },
      /shelf names crew, and shelves hold no such record/,
      { code: 'contradiction', field: 'items' },
    ],
  ])('that %s is refused', async (_what, text, says, more) => {
    const refusal = await refusalOf(await text());
    expect(refusal.message).toMatch(says);
    expect(refusal).toMatchObject(more);
  });

  it('is told by its first words', () => {
    expect([snapshot, everything, '{\n  "bagwright" : "everything"'].map(isEverything)).toEqual([true, true, true]);
    expect(['', '{"bagwright":"manifest record"}', '{"catalog":{}}'].map(isEverything)).toEqual([false, false, false]);
  });
});
