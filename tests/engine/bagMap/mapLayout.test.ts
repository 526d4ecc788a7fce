import { describe, expect, it } from 'vitest';
import type { BagOuting } from '../../../shared-types/bag.ts';
import type { LaidLine } from '../../../shared-types/bagMap.ts';
import { blockKey } from '../../../renderer/engine/bagMap/mapBlocks.ts';
import { mapLayout } from '../../../renderer/engine/bagMap/mapLayout.ts';
import type { MapBag } from '../../../renderer/engine/bagMap/mapLayout.ts';
import { pieceSize } from '../../../renderer/engine/bagMap/pieceSize.ts';
import { placeRefusal } from '../../../renderer/engine/bagMap/placeCheck.ts';
import { mapOuting, mapPlan } from '../../support/bagMapPlan.ts';

const laid = (change: Partial<LaidLine> & Pick<LaidLine, 'item' | 'bag'>): LaidLine => ({
  to: change.bag,
  ...{ xMm: 10, yMm: 10, turned: false },
  ...change,
});
const bagOf = (bags: readonly MapBag[], id: string): MapBag => {
  const found = bags.find(({ bag }) => bag.id === id);
  if (found === undefined) throw new Error(`no bag ${id}`);
  return found;
};
const blockOf = (bag: MapBag, item: string) => bag.blocks.find(({ block }) => block.item === item);

function faultsOf({ bag, lengthMm, depthMm, blocks }: MapBag): string[] {
  return blocks.flatMap((one) => {
    const others = blocks.filter((other) => other !== one).map((other) => ({ key: other.block.key, spot: other }));
    const refusal = placeRefusal(one, { lengthMm, depthMm }, others);
    return refusal === null ? [] : [`${bag.id} ${one.block.item}: ${JSON.stringify(refusal)}`];
  });
}

describe('a piece lying flat', () => {
  const sizeOf = (id: string) => {
    const item = mapPlan.carried.get(id);
    if (item === undefined) throw new Error(id);
    return pieceSize(mapPlan, item);
  };
  it.each([
    ['S-13', { lengthMm: 53, acrossMm: 20, known: 'both' }],
    ['X-150', { lengthMm: 150, acrossMm: 16, known: 'both' }],
    ['R-38', { lengthMm: 220, acrossMm: expect.closeTo(24.2), known: 'length' }],
    ['T-07', { lengthMm: 80, acrossMm: expect.closeTo(44), known: 'length' }],
    ['W-10', { lengthMm: 60, acrossMm: expect.closeTo(33), known: 'none' }],
  ])('%s is as long and wide as the plan says, or as is assumed', (id, size) => {
    expect(sizeOf(id)).toEqual(size);
  });
});

describe('pieces that lie apart', () => {
  it('are a block of their own, and what is left of the line keeps its place and takes less room', () => {
    const whole = blockOf(bagOf(mapLayout(mapPlan, mapOuting, []).bags, 'C'), 'T-07');
    const part = laid({ item: 'T-07', bag: 'C', to: 'L', xMm: 10, yMm: 130, apart: { part: 1, pieces: 2 } });
    const { bags, fallen } = mapLayout(mapPlan, mapOuting, [part]);
    expect(fallen).toEqual([]);
    expect(bags.flatMap(faultsOf)).toEqual([]);
    const rest = blockOf(bagOf(bags, 'C'), 'T-07');
    const apart = blockOf(bagOf(bags, 'L'), 'T-07');
    expect([rest?.block.quantity, apart?.block.quantity]).toEqual([1, 2]);
    expect([rest?.xMm, rest?.yMm]).toEqual([whole?.xMm, whole?.yMm]);
    expect((rest?.widthMm ?? 0) * (rest?.heightMm ?? 0)).toBeLessThan((whole?.widthMm ?? 0) * (whole?.heightMm ?? 0));
    expect([apart?.xMm, apart?.yMm, apart?.byHand]).toEqual([10, 130, true]);
    expect(apart?.block.key).toBe(blockKey('C', 'T-07', 1));
  });
});

describe('the program’s own arrangement', () => {
  it('draws a bag as long as the longest piece it takes, and lays nothing across its sides or on anything else', () => {
    const { bags, fallen } = mapLayout(mapPlan, mapOuting, []);
    expect(bags.map(({ bag, lengthMm, length }) => [bag.id, lengthMm, length])).toEqual([
      ['L', 300, 'given'],
      ['C', 250, 'given'],
      ['Z', 240, 'given'],
    ]);
    expect(bags.flatMap(faultsOf)).toEqual([]);
    expect(fallen).toEqual([]);
  });

  it('draws a bag without a longest size as long as its longest piece, and says that it is assumed', () => {
    const bags = new Map([...mapPlan.bags].map(([id, bag]) => [id, { ...bag, sizeMaxMm: null }]));
    const { bags: drawn } = mapLayout({ ...mapPlan, bags }, mapOuting, []);
    expect(drawn.map(({ bag, lengthMm, length }) => [bag.id, lengthMm, length])).toEqual([
      ['L', 240, 'assumed'],
      ['C', 160, 'assumed'],
      ['Z', 160, 'assumed'],
    ]);
    expect(drawn.flatMap(faultsOf)).toEqual([]);
  });

  it('finds room for many: forty lines in one bag lie apart', () => {
    const items = Array.from({ length: 40 }, (_, index) => `G-${index}`);
    const carried = new Map(
      items.map((id, index) => [
        id,
        {
          ...{ id, name: id, kind: 'gear' as const, massKg: 0.1, volumeL: 0.1, tethers: 0, onHand: 90 },
          sizeMm: 20 + index * 6,
        },
      ]),
    );
    const outing: BagOuting = {
      ...mapOuting,
      items: items.map((id, index) => ({ id, quantity: 1 + (index % 17), bag: 'L', because: [] })),
    };
    const [bag] = mapLayout({ ...mapPlan, carried }, outing, []).bags;
    expect(bag?.blocks).toHaveLength(40);
    expect(bag === undefined ? [] : faultsOf(bag)).toEqual([]);
    expect(Math.max(...(bag?.blocks ?? []).map(({ block }) => block.drawn))).toBe(12);
  });

  it('is the same every time', () => {
    expect(mapLayout(mapPlan, mapOuting, [])).toEqual(mapLayout(mapPlan, mapOuting, []));
  });
});

describe('an arrangement by hand', () => {
  it('lies where it was laid, and moves nothing else', () => {
    const before = bagOf(mapLayout(mapPlan, mapOuting, []).bags, 'L');
    const after = bagOf(
      mapLayout(mapPlan, mapOuting, [laid({ item: 'S-13', bag: 'L', xMm: 150, yMm: 110 })]).bags,
      'L',
    );
    expect(blockOf(after, 'S-13')).toMatchObject({ xMm: 150, yMm: 110, byHand: true });
    expect(blockOf(after, 'R-38')).toEqual(blockOf(before, 'R-38'));
  });

  it('takes a line into another bag, where it finds room', () => {
    const { bags } = mapLayout(mapPlan, mapOuting, [laid({ item: 'T-07', bag: 'C', to: 'L', xMm: 20, yMm: 100 })]);
    expect(blockOf(bagOf(bags, 'L'), 'T-07')).toMatchObject({ xMm: 20, yMm: 100, byHand: true });
    expect(bagOf(bags, 'C').blocks).toEqual([]);
    expect(bags.flatMap(faultsOf)).toEqual([]);
  });

  it.each([
    ['on another piece', { xMm: 10, yMm: 10 }],
    ['past the side', { xMm: 290, yMm: 90 }],
    ['past the bottom', { xMm: 10, yMm: 5000 }],
  ])('that lies %s falls back and is named, and nothing overlaps', (_, spot) => {
    const first = laid({ item: 'R-38', bag: 'L', xMm: 8, yMm: 8 });
    const second = laid({ item: 'S-13', bag: 'L', ...spot });
    const { bags, fallen } = mapLayout(mapPlan, mapOuting, [first, second]);
    expect(fallen).toEqual([second]);
    expect(blockOf(bagOf(bags, 'L'), 'S-13')?.byHand).toBe(false);
    expect(bags.flatMap(faultsOf)).toEqual([]);
  });

  it('turned by a quarter is as high as it was wide', () => {
    const own = blockOf(bagOf(mapLayout(mapPlan, mapOuting, []).bags, 'L'), 'S-13');
    const { bags } = mapLayout(mapPlan, mapOuting, [laid({ item: 'S-13', bag: 'L', xMm: 250, yMm: 60, turned: true })]);
    const turned = blockOf(bagOf(bags, 'L'), 'S-13');
    expect(turned).toMatchObject({ turned: true, byHand: true });
    expect((turned?.heightMm ?? 0) - (own?.heightMm ?? 0)).toBeCloseTo(53 - 20);
  });
});

describe('whether a block may lie somewhere', () => {
  const bag = { lengthMm: 300, depthMm: 200 };
  const spot = { xMm: 100, yMm: 100, widthMm: 60, heightMm: 40 };
  it.each([
    [{ ...spot }, null],
    [
      { ...spot, xMm: -3 },
      { kind: 'outside', side: 'left', byMm: 3 },
    ],
    [
      { ...spot, xMm: 250 },
      { kind: 'outside', side: 'right', byMm: 10 },
    ],
    [
      { ...spot, yMm: -1 },
      { kind: 'outside', side: 'top', byMm: 1 },
    ],
    [
      { ...spot, yMm: 165 },
      { kind: 'outside', side: 'bottom', byMm: 5 },
    ],
    [
      { ...spot, xMm: 50 },
      { kind: 'taken', key: blockKey('L', 'a'), byMm: 10 },
    ],
    // Side by side they touch, and may.
    [{ ...spot, xMm: 40 }, null],
  ])('%j', (at, refusal) => {
    const other = { key: blockKey('L', 'a'), spot: { xMm: 100, yMm: 100, widthMm: 60, heightMm: 40 } };
    const others = at.xMm === 100 && at.yMm === 100 ? [] : [other];
    expect(placeRefusal(at, bag, others)).toEqual(refusal);
  });
});
