import { describe, expect, it } from 'vitest';
import type { OutingEvent } from '../../../shared-types/records/revision.ts';
import { countedBefore, otherOrder, packersBefore, revisionInWork } from '../../../renderer/engine/packing/index.ts';
import { allAgain, allPacked, ann, ben, counted, eventsOf, outing, packingContent } from './packingEvents.ts';

const revisions = [1, 2, 3].map((number) => ({ id: `r${number}`, number, content: packingContent }));
const under = (number: number, deeds: Parameters<typeof eventsOf>[0]): OutingEvent[] =>
  eventsOf(deeds).map((event) => ({ ...event, revision: `r${number}` }));
const gone: Parameters<typeof eventsOf>[0] = [
  ...allPacked,
  { kind: 'bag-closed', bag: 'L' },
  { kind: 'bag-closed', bag: 'C' },
  ...allAgain,
  { kind: 'issued' },
];
const at = (number: number) => {
  const revision = revisions.find((one) => one.number === number);
  if (revision === undefined) throw new Error('no such revision');
  return { revision, outing };
};

describe('the revision that is packed', () => {
  it('is the newest, unless the outing is out with an earlier one and has not come back', () => {
    expect(revisionInWork(revisions, [], outing)?.number).toBe(3);
    expect(revisionInWork(revisions, under(2, gone), outing)?.number).toBe(2);
    expect(revisionInWork(revisions, under(2, [...gone, { kind: 'return-closed' }]), outing)?.number).toBe(3);
    expect(revisionInWork(revisions, under(2, [...gone, { kind: 'taken-back', of: 9 }]), outing)?.number).toBe(3);
    expect(revisionInWork(revisions, [], 'nowhere')).toBeNull();
  });

  it('takes over what lies in the bags under the one before, once, and nothing that has left', () => {
    const some = under(2, [counted('L', 'S-13', 1)]);
    expect(countedBefore(revisions, some, at(3))?.revision.number).toBe(2);
    expect(countedBefore(revisions, some, at(2))).toBeNull();
    expect(countedBefore(revisions, [...some, ...under(3, [counted('L', 'S-13', 1)])], at(3))).toBeNull();
    expect(countedBefore(revisions, under(2, [...gone, { kind: 'return-closed' }]), at(3))).toBeNull();
  });

  it('knows who counted what was carried over, through all revisions', () => {
    const over = (from: string) => ({
      ...{ by: { name: 'Cyd Example', role: 'packer' } },
      deed: {
        kind: 'carried-over' as const,
        from,
        counts: [{ bag: 'L', item: 'S-13', pieces: 1, parts: 1, labels: [] }],
      },
    });
    const events = [
      ...under(1, [{ by: ann, deed: counted('L', 'S-13', 1) }]),
      ...under(2, [over('r1'), { by: ben, deed: counted('C', 'T-07', 1) }]),
      ...under(3, [over('r2')]),
    ];
    expect(packersBefore(revisions, events, { revision: 'r3', outing }).toSorted()).toEqual([
      'Ann Example',
      'Ben Example',
      'Cyd Example',
    ]);
    expect(packersBefore(revisions, events, { revision: 'r1', outing })).toEqual([]);
  });
});

describe('another order', () => {
  it('has everything once, the same for the same seed, and never the order given', () => {
    const things = Array.from({ length: 12 }, (_, index) => index);
    for (let seed = 0; seed < 200; seed += 1) {
      for (const length of [2, 3, 12]) {
        const given = things.slice(0, length);
        const order = otherOrder(given, seed);
        expect(order).not.toEqual(given);
        expect(order.toSorted((a, b) => a - b)).toEqual(given);
        expect(otherOrder(given, seed)).toEqual(order);
      }
    }
    expect(otherOrder([7], 1)).toEqual([7]);
    expect(otherOrder([], 1)).toEqual([]);
  });
});
