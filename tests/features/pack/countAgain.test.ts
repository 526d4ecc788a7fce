import { describe, expect, it } from 'vitest';
import { toCountAgain } from '../../../renderer/features/pack/readAgain.ts';
import { packState } from '../../../renderer/engine/packing/index.ts';
import type { PackedBag } from '../../../renderer/engine/packing/index.ts';
import { again, ben, counted, eventsOf, outing, packingContent } from '../../engine/packing/packingEvents.ts';

const items = Array.from({ length: 25 }, (_, index) => `I-${String(index).padStart(2, '0')}`);
const revision = {
  content: {
    ...packingContent,
    things: [...items.map((id) => ({ id, name: id, kind: 'gear' as const, parts: 1 })), ...packingContent.things],
    lines: items.map((item) => ({ outing, bag: 'L', item, quantity: 2, because: ['turn'] })),
  },
};
const packed = items.map((item) => counted('L', item, 2));

/** The bag as whoever comes back finds it: made of the kept events alone. */
function bagAfter(counts: readonly [item: string, pieces: number][]): PackedBag {
  const events = eventsOf([...packed, ...counts.map((one) => ({ by: ben, deed: again('L', [one]) }))]);
  const [bag] = packState(revision, events, outing).bags;
  if (bag === undefined) throw new Error('no bag');
  return bag;
}
const codes = (bag: PackedBag, recounts: readonly string[] = []): string[] =>
  toCountAgain(bag, recounts).map(({ line }) => line.item);

describe('a second count', () => {
  it('goes through every line once, and not as the packer did', () => {
    const order = codes(bagAfter([]));
    expect(order.toSorted()).toEqual(items);
    expect(order).not.toEqual(items);
  });

  // U21
  it('goes on at the same line, wherever it was broken off', () => {
    const order = codes(bagAfter([]));
    for (const done of [1, 7, 10, 13, 24])
      expect(codes(bagAfter(order.slice(0, done).map((item) => [item, 2])))).toEqual(order.slice(done));
    const all = bagAfter(order.map((item) => [item, 2]));
    expect(codes(all)).toEqual([]);
    expect(all.second).toBe('agrees');
  });

  it('counts once more what it is asked to, and nothing else', () => {
    const order = codes(bagAfter([]));
    const [first = '', second = ''] = order;
    const bag = bagAfter(order.map((item) => [item, item === first ? 1 : 2]));
    expect(bag.second).toBe('differs');
    expect(codes(bag, [first])).toEqual([first]);
    expect(codes(bag, [second, first])).toEqual([first, second]);
  });
});
