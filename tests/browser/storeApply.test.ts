import { describe, expect, it } from 'vitest';
import { emptyHash } from '../../shared-types/journal.ts';
import { applyEntries, PartedError } from '../../renderer/store/copy/applyEntries.ts';
import type { EntryToApply } from '../../renderer/store/copy/applyEntries.ts';
import { digestsOf } from '../../renderer/store/copy/digest.ts';
import { beginCopy } from '../../renderer/store/opening/opening.ts';
import { compareCopy, emptyCounts } from '../../renderer/store/opening/compareCopy.ts';
import type { Verdict } from '../../renderer/store/opening/compareCopy.ts';
import { tallyOf, WorkingCopy } from '../../renderer/store/copy/workingCopy.ts';
import { shelf } from './support/keptStore.ts';

const hash = (digit: string): string => digit.repeat(64);

const entry = (seq: number, name: string, more: Partial<EntryToApply> = {}): EntryToApply => ({
  ...{ seq, hash: hash(String(seq)), prevHash: seq === 1 ? emptyHash : hash(String(seq - 1)) },
  changes: [{ table: 'shelves', id: 'crew', before: null, after: { ...shelf('crew', name), rev: seq } }],
  ...more,
});

async function freshCopy(): Promise<WorkingCopy> {
  const copy = new WorkingCopy(`bagwright-${crypto.randomUUID().slice(0, 8)}-1`);
  await copy.open();
  await beginCopy(copy);
  return copy;
}

const nameIn = async (copy: WorkingCopy): Promise<string | undefined> =>
  (await copy.records('shelves').get('crew'))?.name;

describe('entries brought into a working copy', () => {
  it('come to the same whether one by one, all at once, or twice', async () => {
    const entries = [entry(1, 'a'), entry(2, 'b'), entry(3, 'c')];
    const one = await freshCopy();
    for (const each of entries) await applyEntries(one, [each]);
    const once = await digestsOf(one);
    const all = await freshCopy();
    await applyEntries(all, entries);
    await applyEntries(all, entries);
    await applyEntries(all, entries.slice(0, 2));
    expect(await digestsOf(all)).toEqual(once);
    expect(await nameIn(all)).toBe('c');
    expect(await all.meta().get('head')).toEqual({ key: 'head', seq: 3, hash: hash('3') });
    one.shut();
    all.shut();
  });

  it.each<[string, EntryToApply[]]>([
    ['one is lacking before', [entry(3, 'x', { prevHash: hash('1') })]],
    ['it follows upon another past', [entry(2, 'x', { prevHash: hash('f') })]],
    ['the last one here is another', [entry(1, 'x', { hash: hash('e') }), entry(2, 'y')]],
  ])('are refused, all of them, where %s', async (_what, entries) => {
    const copy = await freshCopy();
    await applyEntries(copy, [entry(1, 'a')]);
    await expect(applyEntries(copy, entries)).rejects.toThrow(PartedError);
    expect(await nameIn(copy)).toBe('a');
    expect(await copy.meta().get('head')).toMatchObject({ seq: 1, hash: hash('1') });
    copy.shut();
  });

  it('are refused by a copy that does not say how far it has come', async () => {
    const copy = await freshCopy();
    await copy.meta().clear();
    await expect(applyEntries(copy, [entry(1, 'a')])).rejects.toThrow(PartedError);
    expect((await tallyOf(copy)).counts.shelves).toBe(0);
    copy.shut();
  });
});

describe('journal and working copy, compared', () => {
  const held = { ...emptyCounts(), items: 3 };
  const state = { seq: 4, hash: hash('a'), counts: held };
  const meta = { key: 'head' as const, seq: 4, hash: hash('a') };
  it.each<[string, Parameters<typeof compareCopy>, Verdict['kind']]>([
    ['the same', [state, { meta, counts: held }], 'same'],
    ['the copy behind', [state, { meta: { ...meta, seq: 3 }, counts: held }], 'behind'],
    ['the copy ahead', [state, { meta: { ...meta, seq: 5 }, counts: held }], 'ahead'],
    ['another hash', [state, { meta: { ...meta, hash: hash('b') }, counts: held }], 'differs'],
    ['fewer records', [state, { meta, counts: { ...held, items: 2 } }], 'differs'],
    ['records of another table', [state, { meta, counts: { ...held, items: 2, steps: 1 } }], 'differs'],
    ['no head', [state, { meta: null, counts: held }], 'differs'],
    ['a damaged head', [state, { meta: 'damaged', counts: held }], 'differs'],
    [
      'both at their beginning',
      [
        { seq: 0, hash: emptyHash, counts: emptyCounts() },
        { meta: null, counts: emptyCounts() },
      ],
      'fresh',
    ],
    [
      'an empty journal beside records',
      [
        { seq: 0, hash: emptyHash, counts: emptyCounts() },
        { meta: null, counts: held },
      ],
      'ahead',
    ],
  ])('are %s', (_what, [journal, copy], kind) => {
    expect(compareCopy(journal, copy).kind).toBe(kind);
  });
});
