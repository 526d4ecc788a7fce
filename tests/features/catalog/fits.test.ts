/** What goes together, judged by groups of alike items, against each pair by itself. */
import { describe, expect, it } from 'vitest';
import { fitsOf } from '../../../renderer/features/catalog/fits.ts';
import { nearSizes } from '../../../renderer/features/catalog/page/nearSizes.ts';
import type { Item } from '../../../shared-types/records/item.ts';
import { dice } from '../../reference/dice.ts';

const { pick, chance } = dice(Number(process.env['BAGWRIGHT_SEED'] ?? 4711));
const common = (n: number) => {
  const code = `${pick(['A', 'B', 'a', 'Ä', '1'])}-${n}`;
  return {
    ...{ id: `i${n}`, rev: 1, code, shelf: chance(0.8) ? 'crew' : 'depot' },
    ...{ retired: chance(0.1), parts: 1, kit: 'field' as const },
  };
};
const sizes = ['13 mm', '1/2 in', '14 mm', '9/16 in', '15 mm', '16 mm', '5/8 in', 'as it was'];
const squares = ['3/8 in', '1/2 in', '0.5 in', '12.7 mm'];

function someItem(n: number): Item {
  const of = common(n);
  switch (pick(['socket', 'socket', 'fastener', 'fastener', 'extension', 'driver'] as const)) {
    case 'socket':
      return {
        ...{ ...of, kind: 'socket', drive: pick(squares), length: '40 mm', outsideDiameter: '24 mm' },
        opening: { form: pick(['hex6', 'hex12', 'hexKey'] as const), size: pick(sizes) },
        ...{ ratedTorque: '100 N·m', mass: '90 g', onHand: 1 },
      };
    case 'fastener':
      return {
        ...{ ...of, kind: 'fastener', thread: pick(['M8', 'M10', '3/8-24', 'none known']) },
        head: { form: pick(['hex', 'nut', 'hex-socket'] as const), acrossFlats: pick(sizes) },
      } as Item;
    case 'extension':
      return {
        ...{ ...of, kind: 'extension', driveIn: pick(squares), driveOut: pick(squares), length: '75 mm' },
        ...{ outsideDiameter: '20 mm', ratedTorque: '100 N·m', mass: '90 g', onHand: 1 },
      } as Item;
    default:
      return { ...of, kind: 'driver', drive: pick(squares), mass: '300 g', onHand: 1 } as Item;
  }
}

const all = Array.from({ length: 160 }, (_, n) => someItem(n));
const held = new Map(all.map((item) => [item.id, item]));
const pair = (one: Item, other: Item) => new Map([one, other].map((item) => [item.id, item]));
const others = (item: Item) => all.filter(({ id }) => id !== item.id);

describe('a shelf of items of which many are alike', () => {
  it('says of each what goes together with it as it does of the two alone, in the order of the table', () => {
    let fits = 0;
    for (const item of all)
      for (const [at, { title, items }] of fitsOf(item, held).entries()) {
        const each = others(item).filter((other) => fitsOf(item, pair(item, other))[at]?.items[0] === other);
        expect(items, `${title} ${item.code}`).toEqual(each);
        fits += items.length;
      }
    expect(fits).toBeGreaterThan(300);
  });

  it('says of each what is near it as it does of the two alone, the nearest first', () => {
    let near = 0;
    for (const item of all) {
      const { nearest, count } = nearSizes(item, held);
      const each = others(item).flatMap((other) => nearSizes(item, pair(item, other)).nearest);
      expect(count).toBe(each.length);
      expect(nearest).toHaveLength(count);
      expect(new Set(nearest)).toEqual(new Set(each));
      const order = each.toSorted(
        (a, b) => Math.abs(a.differenceMm) - Math.abs(b.differenceMm) || a.item.code.localeCompare(b.item.code, 'en'),
      );
      expect(nearest).toEqual(order);
      expect(nearSizes(item, held, 5)).toEqual({ nearest: order.slice(0, 5), count });
      near += count;
    }
    expect(near).toBeGreaterThan(300);
  });
});
