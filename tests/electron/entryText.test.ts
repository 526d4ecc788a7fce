/** What an entry's text is taken to say without being read as JSON, held against JSON itself. */
import { readFileSync, writeFileSync } from 'node:fs';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { seal } from '../../electron/journal/entry.ts';
import { entryText } from '../../electron/journal/entryText.ts';
import { canonicalJson } from '../../shared-types/canonicalJson.ts';
import type { Change, JournalEntry } from '../../shared-types/journal.ts';
import { recordsVersion, tableNames } from '../../shared-types/records/index.ts';
import { comes, segmentPaths } from './support/journalUnderTest.ts';
import { kept } from './support/keptSnapshots.ts';

/** Texts that look like what stands around a record. */
const alike = [
  '","before":null,"id":"x","table":"items"}]',
  '"payload":{"changes":[',
  '"prevHash":"',
  '\\',
  '\\"',
  '"',
  '{"after":',
  ']}',
  'ü ½ 中 😀',
  '\u2028\n\u0000',
];
const anyText = fc.oneof(fc.constantFrom(...alike), fc.string({ unit: 'binary' }));
const anyName = fc.oneof(
  fc.constantFrom('after', 'before', 'id', 'table', 'payload', 'changes', ...alike),
  fc.string(),
);
const leaf = fc.oneof(
  anyText,
  fc.integer(),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.boolean(),
  fc.constant(null),
);
const { value } = fc.letrec((tie) => ({
  value: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    leaf,
    fc.array(tie('value'), { maxLength: 3 }),
    fc.dictionary(anyName, tie('value'), { maxKeys: 3 }),
  ),
}));
const record = fc.option(fc.dictionary(anyName, value, { maxKeys: 5 }));
const change = fc.record({
  table: fc.constantFrom(...tableNames),
  id: fc.stringMatching(/^[A-Za-z0-9_-]{1,40}$/),
  before: record,
  after: record,
});
const anyHash = fc.stringMatching(/^[0-9a-f]{64}$/);

const anyEntry = fc
  .record({
    ...{ seq: fc.integer({ min: 1, max: 2_000_000_000 }), user: anyText, title: anyText, prevHash: anyHash },
    ...{ changes: fc.array(change, { minLength: 1, maxLength: 6 }), isUndo: fc.boolean() },
  })
  .map(({ seq, user, title, prevHash, changes, isUndo }) =>
    seal({
      ...{ seq, user, prevHash, deviceId: 'ab'.repeat(16), utc: '2031-04-05T06:07:08.000Z', tzOffset: -300 },
      ...{ action: isUndo ? 'undo' : 'edit', schema: recordsVersion },
      payload: {
        ...{ title, key: '00000000-0000-4000-8000-000000000000', undoable: true, changes: changes as Change[] },
        ...(isUndo ? { of: seq } : {}),
      },
    }).line.toString('utf8'),
  );

it('says of every entry what JSON says of it, and of every record the text that is its own', () => {
  fc.assert(
    fc.property(anyEntry, (line) => {
      const said = entryText(line);
      const { seq, hash, prevHash, schema, payload } = JSON.parse(line) as JournalEntry;
      expect(said).toEqual({
        frame: { seq, hash, prevHash, schema },
        changes: payload.changes.map(({ table, id, after }) => ({
          ...{ table, id },
          after: after === null ? null : canonicalJson(after),
        })),
      });
    }),
    { seed: 20_310_405, numRuns: 800 },
  );
});

it('says nothing of one that is cut, and of one with another sign in it nothing that does not end', () => {
  const whole = seal({
    ...{ seq: 7, user: 'A. Example', deviceId: 'ab'.repeat(16), utc: '2031-04-05T06:07:08.000Z', tzOffset: 0 },
    ...{ prevHash: '0'.repeat(64), action: 'edit', schema: recordsVersion },
    payload: {
      ...{ title: 'Add', key: '00000000-0000-4000-8000-000000000000', undoable: true },
      changes: [comes('s1', 'Store "1" \\'), { table: 'shelves', id: 's2', before: { id: 's2' }, after: null }],
    },
  }).line.toString('utf8');
  expect(entryText(whole)?.changes).toHaveLength(2);
  const framed = whole.indexOf('"tzOffset":');
  for (let end = 0; end < framed; end += 1) expect(entryText(whole.slice(0, end)), `cut at ${end}`).toBeNull();
  for (let at = 0; at < whole.length; at += 1) {
    for (const sign of ['"', '\\', '{', '}', '[', ']', ',', 'x']) {
      const said = entryText(`${whole.slice(0, at)}${sign}${whole.slice(at + 1)}`);
      for (const { id, after } of said?.changes ?? []) {
        expect(id).not.toMatch(/["\\]/);
        if (after !== null) expect(after).toMatch(/^[{["].*[}\]"]$/s);
      }
    }
  }
});

it.each([
  ['of a later table', '"table":"shelves"', '"table":"barrels"'],
  ['with an escape in its id', '"id":"s1","table"', '"id":"s\\u0031","table"'],
  ['with its names in another order', '"schema":', '"Schema":'],
  ['without changes', /"changes":\[.*\],"key"/, '"changes":[],"key"'],
])('leaves one %s to be read as JSON', (_what, from, to) => {
  const line = seal({
    ...{ seq: 1, user: '', deviceId: 'ab'.repeat(16), utc: '2031-04-05T06:07:08.000Z', tzOffset: 0 },
    ...{ prevHash: '0'.repeat(64), action: 'edit', schema: recordsVersion },
    payload: { title: 'Add', key: '00000000-0000-4000-8000-000000000000', undoable: true, changes: [comes('s1')] },
  }).line.toString('utf8');
  const other = line.replace(from, to);
  expect(other).not.toBe(line);
  expect(entryText(line)).not.toBeNull();
  expect(entryText(other)).toBeNull();
});

it('is held against its hash again: a bit that turned under an open journal is taken into no snapshot', async () => {
  const { journal, keeper, names } = await kept(6);
  await keeper.make('asked');
  const before = names();
  await journal.add(7);
  const [segment = ''] = segmentPaths(journal.folder);
  const bytes = readFileSync(segment);
  const at = bytes.indexOf('Store s7') + 'Store s'.length;
  bytes[at] = (bytes[at] ?? 0) ^ 0x04;
  writeFileSync(segment, bytes);
  await expect(keeper.make('asked')).rejects.toThrow('entry 7 of the journal is not what its hash says any more');
  expect(names()).toEqual(before);
});
