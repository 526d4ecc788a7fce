import { describe, expect, it } from 'vitest';
import type { Revision } from '../../../shared-types/records/revision.ts';
import type { Comparison } from '../../../renderer/engine/frozen/index.ts';
import { comparisonRows, summaryText } from '../../../renderer/features/revisions/comparisonRows.ts';
import { nextNumber, whyNotNow } from '../../../renderer/features/revisions/freezeAct.ts';
import { heldAgainst, revisionText } from '../../../renderer/features/revisions/revisionWords.ts';
import { mapRevision } from '../../support/frozenTask.ts';

const nothing: Comparison = {
  ...{ bags: true, lines: [], things: [], steps: [], outings: [], stock: [], whole: [] },
  same: { lines: 3, things: 2, steps: 1 },
};
const names = {
  item: (code: string) => `Thing ${code}`,
  bag: (code: string) => `Bag ${code}`,
  outing: (code: string) => `outing ${code}`,
  outings: true,
};
const found: Comparison = {
  ...nothing,
  lines: [
    { outing: 'o', item: 'T', kind: 'added', was: null, is: { bag: 'A', quantity: 1 }, pieces: 1, words: null },
    {
      ...{ outing: 'p', item: 'T', kind: 'quantity', pieces: -2, words: null },
      ...{ was: { bag: 'A', quantity: 3 }, is: { bag: 'A', quantity: 1 } },
    },
    {
      ...{ outing: 'p', item: 'U', kind: 'reason', pieces: 0, words: { was: 'for a', is: 'for a, b' } },
      ...{ was: { bag: 'A', quantity: 1 }, is: { bag: 'A', quantity: 1 } },
    },
  ],
  things: [
    { code: 'T', name: 'T', kind: 'changed', fields: [{ path: 'catalogEntry', was: 'k1', is: 'k2' }] },
    { code: 'V', name: 'Vice', kind: 'gone', fields: [] },
  ],
  steps: [
    {
      ...{ code: 's', name: 'Loosen', kind: 'changed' },
      fields: [
        { path: 'at.quarterTurns', was: '1', is: null },
        { path: 'number', was: '2', is: '5' },
      ],
    },
  ],
  whole: [{ path: 'bag.tolerance', was: 'nothing', is: 'piece' }],
};

describe('a comparison in words', () => {
  it('has a row for each change, lines by their outing, and never a key', () => {
    expect(comparisonRows(found, names).map((row) => Object.values(row))).toEqual([
      ['Lines of outing o', 'Thing T', 'T', 'added', 'not there', '1 piece in Bag A'],
      ['Lines of outing p', 'Thing T', 'T', 'other quantity: 2 fewer', '3 pieces in Bag A', '1 piece in Bag A'],
      [
        'Lines of outing p',
        'Thing U',
        'U',
        'needed otherwise',
        '1 piece in Bag A, for a',
        '1 piece in Bag A, for a, b',
      ],
      ['Things', 'T', '', 'entry of the catalog', 'the one of then', 'another of the same code'],
      ['Things', 'V', 'Vice', 'gone', 'on the manifest', 'not there'],
      ['Steps', 's', 'Loosen', 'interface, quarter turns', '1', 'not said'],
      ['Steps', 's', 'Loosen', 'place in the order', '2', '5'],
      ['The task and what was asked of the bag', '', '', 'bag, tolerance', 'nothing', 'piece'],
    ]);
  });

  it('counts what differs and what does not', () => {
    expect(summaryText(found)).toBe('3 lines, 2 things, 1 step and 1 setting differ. 3 lines are the same.');
    expect(summaryText({ ...nothing, steps: found.steps, bags: false })).toBe('1 step differs.');
    expect(summaryText(nothing)).toBe('Nothing differs.');
  });
});

describe('the numbers of frozen manifests', () => {
  it('grow by one from the last, and each is held against the one before it', async () => {
    const first = await mapRevision();
    const all: Revision[] = [1, 2, 5].map((number) => ({ ...first, id: `r${number}`, number }));
    expect([nextNumber([]), nextNumber(all)]).toEqual([1, 6]);
    const [one, two, five] = all as [Revision, Revision, Revision];
    expect(heldAgainst(all, five, undefined)).toBe(two);
    expect(heldAgainst(all, one, undefined)).toBeNull();
    expect(heldAgainst(all, null, undefined)).toBe(five);
    expect(heldAgainst(all, five, '1')).toBe(one);
    expect(heldAgainst(all, five, 'open')).toBeNull();
    // Against itself there is nothing to say.
    expect(heldAgainst(all, five, '5')).toBe(two);
    expect(revisionText(all, { at: 'bag' })).toBe('newest 5');
    expect(revisionText(all, { at: 'frozen', number: '2' })).toBe('2');
    expect(revisionText([], { at: 'bag' })).toBe('not frozen');
  });

  it('are not given while a change is under way, not saved, or made elsewhere', () => {
    expect(whyNotNow({ kind: 'saved', at: new Date(0) })).toBeNull();
    expect(whyNotNow({ kind: 'nothing' })).toBeNull();
    expect(whyNotNow({ kind: 'saving' })).toMatch(/being saved/);
    expect(whyNotNow({ kind: 'not-saved', reason: 'the disk is full' })).toMatch(/NOT SAVED: the disk is full/);
    expect(whyNotNow({ kind: 'elsewhere', reason: 'Another window saves' })).toBe('Another window saves');
  });
});
