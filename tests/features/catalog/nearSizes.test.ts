import { expect, it } from 'vitest';
import { nearSizes } from '../../../renderer/features/catalog/page/nearSizes.ts';
import type { Item, ItemOf } from '../../../shared-types/records/item.ts';

const common = { rev: 1, shelf: 'crew', retired: false, parts: 1, kit: 'field' } as const;
const socket = (code: string, size: string, form: 'hex6' | 'hex12' | 'hexKey' = 'hex6'): Item => ({
  ...{ ...common, id: code, code, kind: 'socket', drive: '1/2 in', opening: { form, size }, length: '40 mm' },
  ...{ outsideDiameter: '24 mm', ratedTorque: '100 N·m', mass: '90 g', onHand: 1 },
});
const bolt = (code: string, more: Partial<ItemOf<'fastener'>> = {}): Item => ({
  ...{ ...common, id: code, code, kind: 'fastener', thread: 'M10', head: { form: 'hex', acrossFlats: '16 mm' } },
  ...more,
});

const shelf: Item[] = [
  socket('S-5/8', '5/8 in'),
  socket('S-16', '16 mm'),
  socket('S-11/16', '11/16 in'),
  socket('K-16', '16 mm', 'hexKey'),
  socket('S-17', '17 mm', 'hex12'),
  bolt('B-10'),
  bolt('B-7/16', { thread: '7/16-20', head: { form: 'hex', acrossFlats: '5/8 in' } }),
  { ...socket('S-far', '5/8 in'), shelf: 'other' },
];
const held = new Map(shelf.map((item) => [item.id, item]));

it('an M10 head does not take a 5/8 in opening, as its limits say, and no limits of metric openings are held', () => {
  const bolted = shelf.find(({ code }) => code === 'B-10');
  if (bolted === undefined) throw new Error('no bolt');
  const near = nearSizes(bolted, held).nearest;
  expect(near.map(({ item, verdict }) => [item.code, verdict])).toEqual([
    ['S-16', 'not-held'],
    ['S-5/8', 'not-on'],
    ['S-17', 'not-held'],
  ]);
  expect(near[1]?.words).toMatch(/^clearance -?0\.0\d+ to 0\.424 mm/);
});

it('a 5/8 in socket goes on its own head, and is told of the heads near it', () => {
  const [own] = shelf;
  if (own === undefined) throw new Error('no socket');
  expect(nearSizes(own, held).nearest.map(({ item, verdict }) => [item.code, verdict])).toEqual([
    ['B-7/16', 'goes-on'],
    ['B-10', 'not-on'],
  ]);
});
