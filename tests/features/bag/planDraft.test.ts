import { describe, expect, it } from 'vitest';
import type { Asked } from '../../../renderer/features/bag/asked.ts';
import { askedLast } from '../../../renderer/features/bag/asked.ts';
import {
  askedOf,
  draftOf,
  noWish,
  oneBagOutings,
  planFaults,
  wishFaults,
  wishText,
  withWish,
} from '../../../renderer/features/bagPlan/planDraft.ts';
import type { Wish, WishDraft } from '../../../renderer/features/bagPlan/planDraft.ts';
import { mapPlan } from '../../support/bagMapPlan.ts';

const asked: Asked = {
  minimised: 'count',
  tolerance: 'piece',
  wishes: {
    keep: [{ id: 'X-150', quantity: 2, outing: 'o' }],
    forbid: [{ id: 'S-13' }],
    spares: [{ id: 'W-10', quantity: 3 }],
  },
  timeLimitS: 2.5,
};
const wish = (change: Partial<Wish>): Wish => ({ kind: 'keep', id: 'S-13', quantity: 1, outing: null, ...change });
const writing = (change: Partial<WishDraft>): WishDraft => ({ ...noWish, ...change });

describe('what is asked of the planner', () => {
  it('comes back from its form as it went in', () => {
    expect(askedOf(draftOf(asked))).toEqual(asked);
    expect(askedOf(draftOf(askedLast(null)))).toEqual(askedLast(null));
  });

  it('of an answer kept before there were wishes is nothing beyond the plan', () => {
    expect(askedLast(null)).toEqual({
      minimised: 'mass',
      tolerance: 'nothing',
      wishes: { keep: [], forbid: [], spares: [] },
      timeLimitS: null,
    });
  });

  it('a wish of the same kind, item and outing replaces the one before', () => {
    const wishes = withWish([wish({ quantity: 1 }), wish({ outing: 'o' })], wish({ quantity: 3 }));
    expect(wishes.map(({ quantity, outing }) => [quantity, outing])).toEqual([
      [1, 'o'],
      [3, null],
    ]);
  });
});

describe('a wish that cannot stand', () => {
  it.each([
    [writing({ item: ' ' }), /^Item: type its code/],
    [writing({ item: 'S-99' }), /^Item "S-99": not in this task’s stock/],
    [writing({ item: 'S-13', quantity: '0' }), /^Pieces "0": write a whole number/],
    [writing({ item: 'S-13', quantity: '1.5' }), /^Pieces "1.5"/],
    [writing({ item: 'S-13', quantity: '' }), /^Pieces ""/],
    [writing({ item: 'S-13', quantity: '5' }), /^Pieces "5": 4 of S-13 on hand, 1 too few/],
    [writing({ item: 'S-13', kind: 'spares' }), /^Item "S-13": spares are of gear/],
  ])('%j is refused in words', (draft, words) => {
    expect(wishFaults(mapPlan, draft).map(({ message }) => message)).toEqual([expect.stringMatching(words)]);
  });

  it.each([
    writing({ item: 'S-13', quantity: '4' }),
    writing({ item: 'W-10', kind: 'spares' }),
    writing({ item: 'S-13', kind: 'forbid', quantity: 'many' }),
  ])('%j is taken', (draft) => {
    expect(wishFaults(mapPlan, draft)).toEqual([]);
  });

  it('is both wanted and forbidden on the same outing, and only there', () => {
    const draft = (wishes: Wish[]) => ({ ...draftOf(askedLast(null)), wishes });
    const faults = (wishes: Wish[]) => planFaults(mapPlan, draft(wishes)).map(({ message }) => message);
    expect(faults([wish({}), wish({ kind: 'forbid' })])).toEqual([
      'Socket 13 mm (S-13) is both wanted and forbidden: remove one of the two.',
    ]);
    expect(faults([wish({}), wish({ kind: 'forbid', outing: 'o' })])).toHaveLength(1);
    expect(faults([wish({}), wish({ kind: 'keep', outing: 'o' })])).toEqual([]);
    expect(faults([wish({ id: 'gone' })])).toEqual(['gone is no longer in this task’s stock: remove it.']);
    expect(faults([wish({ outing: 'p' })])).toEqual(['S-13: outing p is no longer one of this task’s: remove it.']);
  });

  it('that is typed and not added keeps the plan from being sent without it', () => {
    const draft = { ...draftOf(askedLast(null)), writing: writing({ item: 'S-13' }) };
    expect(planFaults(mapPlan, draft)).toEqual([
      { field: 'wish-item', message: 'Item "S-13": typed and not added yet. Add it, or leave the field empty.' },
    ]);
  });
});

describe('a wish in words', () => {
  it.each([
    [wish({ quantity: 2 }), 'Kept always: 2 × Socket 13 mm (S-13)'],
    [wish({ kind: 'forbid', outing: 'o' }), 'Forbidden on Only outing: Socket 13 mm (S-13)'],
    [wish({ kind: 'spares', id: 'W-10' }), 'Spare: 1 × Wipes (W-10) beyond the need'],
    [wish({ id: 'X-150' }), 'Kept always: 1 × extension X-150'],
  ])('%j', (one, words) => {
    expect(wishText(mapPlan, one)).toBe(words);
  });

  it('names the outings that have one bag alone', () => {
    expect(oneBagOutings(mapPlan)).toEqual([]);
    const outings = mapPlan.outings.map((outing) => ({ ...outing, bags: ['L'] }));
    expect(oneBagOutings({ ...mapPlan, outings })).toEqual(['Only outing']);
  });
});
