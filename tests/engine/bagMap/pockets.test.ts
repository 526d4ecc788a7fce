import { describe, expect, it } from 'vitest';
import type { LaidLine } from '../../../shared-types/bagMap.ts';
import { freeze, laidOfPlaces, readFrozen } from '../../../renderer/engine/frozen/index.ts';
import { mapLayout } from '../../../renderer/engine/bagMap/mapLayout.ts';
import type { MapLayout } from '../../../renderer/engine/bagMap/mapLayout.ts';
import { ownPockets } from '../../../renderer/engine/bagMap/pockets.ts';
import { packState } from '../../../renderer/engine/packing/index.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import { planSchema } from '../../../shared-types/plan.ts';
import { arePockets } from '../../../shared-types/pockets.ts';
import { carriedOn, intoFree, pickedUp, setDown } from '../../../renderer/features/bagMap/carrying.ts';
import { standingOf } from '../../../renderer/engine/bagMap/standing.ts';
import { mapResult, mapSource } from '../../support/bagMapPlan.ts';
import { stateOfPlan } from '../../support/frozenTask.ts';

/** Twenty-five pieces of gear in one bag of three pockets, the n-th needed by step n; the first two by the last step alone. */
const codes = Array.from({ length: 25 }, (_, index) => `G-${String(index + 1).padStart(2, '0')}`);
const source = (pocketNames?: string) => ({
  catalog: {
    carryGear: codes.map((id) => ({ id, mass: '0.1 kg', size: '60 mm', onHand: 3 })),
    bags: [{ id: 'L', sizeMax: '600 mm', ...(pocketNames === undefined ? {} : { pocketNames }) }],
  },
  outings: [{ id: 'o', roles: ['lead'], bags: ['L'] }],
  steps: codes.map((id, index) => ({
    id: `s${index + 1}`,
    ...{ outing: 'o', role: 'lead', action: 'use', gear: [{ id: codes[(index + 2) % 25] ?? id, quantity: 2 }] },
  })),
});
const planOf = (pocketNames?: string) => planFrom(planSchema.parse(source(pocketNames)));
const planned = {
  ...{ id: 'o', massKg: 5, steps: [] },
  items: codes.map((id, index) => ({ id, quantity: 2, bag: 'L', because: [`s${((index + 23) % 25) + 1}`] })),
};
const result = { ...mapResult, outings: [planned] };
const three = 'lid; main ;side';

function inPockets({ bags }: MapLayout): Record<string, string[]> {
  const found: Record<string, string[]> = {};
  for (const { block, pocket } of bags.flatMap(({ blocks }) => blocks)) (found[pocket ?? ''] ??= []).push(block.item);
  return found;
}

describe('pockets of a bag', () => {
  it('share its lines evenly, what is needed first in the first one; without names there are none', () => {
    const own = ownPockets(planOf(three), planned, 'L');
    const counts = ['lid', 'main', 'side'].map((name) => [...own.values()].filter((one) => one === name).length);
    expect(counts).toEqual([9, 8, 8]);
    // The step of G-03 is the first, those of G-01 and G-02 are the last.
    expect(own.get('G-03')).toBe('lid');
    expect([own.get('G-01'), own.get('G-02')]).toEqual(['side', 'side']);
    expect(ownPockets(planOf(), planned, 'L').size).toBe(0);
    expect(mapLayout(planOf(), planned, []).bags[0]?.pockets).toEqual([]);
  });

  it('lie one below the other, none over another, and nothing lies outside of its own', () => {
    const layout = mapLayout(planOf(three), planned, []);
    const [bag] = layout.bags;
    if (bag === undefined) throw new Error('no bag');
    expect(bag.pockets.map(({ name }) => name)).toEqual(['lid', 'main', 'side']);
    for (const [index, { yMm, beginMm, endMm }] of bag.pockets.entries()) {
      expect(yMm).toBe(bag.pockets[index - 1]?.endMm ?? 0);
      expect(beginMm).toBeGreaterThan(yMm);
      expect(endMm).toBeGreaterThan(beginMm);
    }
    expect(bag.depthMm).toBe(bag.pockets.at(-1)?.endMm);
    for (const { pocket, yMm, heightMm } of bag.blocks) {
      const { beginMm = NaN, endMm = NaN } = bag.pockets.find(({ name }) => name === pocket) ?? {};
      expect(yMm).toBeGreaterThanOrEqual(beginMm);
      expect(yMm + heightMm).toBeLessThanOrEqual(endMm);
    }
  });

  it('take what a person sends there, by its middle or by name, while everything else stays', () => {
    const plan = planOf(three);
    const layout = mapLayout(plan, planned, []);
    const key = JSON.stringify(['L', 'G-03']);
    const at = { plan, answer: planned, layout, standing: standingOf(result) };
    const up = pickedUp(layout, key);
    if (up === null) throw new Error('not found');
    const over = carriedOn(layout, carriedOn(layout, up, 1), 1);
    expect(over.pocket).toBe('side');
    expect(carriedOn(layout, over, 1).pocket).toBe('lid');
    const down = setDown(at, intoFree(layout, up, { bag: 'L', pocket: 'side' }));
    if (down.kind !== 'laid') throw new Error(down.kind);
    expect(down.lines).toMatchObject([{ item: 'G-03', bag: 'L', to: 'L', pocket: 'side' }]);
    const before = inPockets(layout);
    const after = inPockets(mapLayout(plan, planned, down.lines));
    expect(after['side']?.toSorted()).toEqual([...(before['side'] ?? []), 'G-03'].toSorted());
    expect(after['main']?.toSorted()).toEqual(before['main']?.toSorted());
    // Half of it: what stays stays in its pocket.
    const half = setDown(at, intoFree(layout, { ...up, pieces: 1 }, { bag: 'L', pocket: 'main' }));
    if (half.kind !== 'laid') throw new Error(half.kind);
    const parted = inPockets(mapLayout(plan, planned, half.lines));
    expect([parted['lid']?.includes('G-03'), parted['main']?.includes('G-03')]).toEqual([true, true]);
  });

  it('that are gone leave what was laid in them to the program', () => {
    const line: LaidLine = { item: 'G-03', bag: 'L', to: 'L', xMm: 10, yMm: 10, turned: false, pocket: 'net' };
    const [bag] = mapLayout(planOf(three), planned, [line]).bags;
    expect(bag?.blocks.find(({ block }) => block.item === 'G-03')).toMatchObject({ pocket: 'lid', byHand: false });
  });

  it('have names that can be told apart', () => {
    expect(['lid', 'lid; main', ' lid ;net '].map(arePockets)).toEqual([true, true, true]);
    expect(['lid;', ';', 'lid; lid', `${'x'.repeat(81)}; a`].map(arePockets)).toEqual([false, false, false, false]);
    expect(planSchema.safeParse(source('lid; lid')).success).toBe(false);
  });
});

describe('a manifest of bags with pockets', () => {
  it('freezes pockets and places, reads them again to the same map, and is packed pocket by pocket, ten lines at most', async () => {
    const state = await stateOfPlan(source(three), { result });
    const layout = mapLayout(state.plan, planned, []);
    const up = pickedUp(layout, JSON.stringify(['L', 'G-03']), 1);
    const down =
      up &&
      setDown(
        { plan: state.plan, answer: planned, layout, standing: standingOf(result) },
        intoFree(layout, up, { bag: 'L', pocket: 'side' }),
      );
    if (down?.kind !== 'laid') throw new Error('not laid');
    const content = freeze({ ...state, laid: { planned: result, linesOf: () => down.lines } });
    expect(content.lines.find(({ item }) => item === 'G-03')).toMatchObject({
      pocket: 'lid',
      apart: [{ pocket: 'side', pieces: 1 }],
    });
    expect(content.places).toMatchObject([{ item: 'G-03', pieces: 1, pocket: 'side' }]);
    const frozen = readFrozen({ number: 1, content });
    const [answer] = frozen.result.outings;
    if (answer === undefined) throw new Error('no outing');
    const again = mapLayout(frozen.plan, answer, laidOfPlaces(answer, frozen.places));
    const first = mapLayout(state.plan, planned, down.lines);
    const spots = ({ bags }: MapLayout) =>
      bags.flatMap(({ blocks }) =>
        blocks.map(({ block, pocket, xMm, yMm }) => [block.item, block.quantity, pocket, xMm, Math.round(yMm)]),
      );
    expect(spots(again)).toEqual(spots(first));

    const [bag] = packState({ content }, [], 'o').bags;
    expect(bag?.chunks.map(({ pocket, part, parts, lines }) => [pocket, part, parts, lines.length])).toEqual([
      ['lid', 1, 1, 9],
      ['main', 1, 1, 8],
      ['side', 1, 1, 8],
    ]);
    // The hand goes through the lines as the pockets have them.
    expect(bag?.lines).toEqual(bag?.chunks.flatMap(({ lines }) => [...lines]));
  });

  it('is the same, byte for byte, where no bag has named pockets and nothing was laid by hand', async () => {
    const state = await stateOfPlan(mapSource, { result: mapResult });
    const content = freeze({ ...state, laid: { planned: mapResult, linesOf: () => [] } });
    expect(content).toEqual(freeze(state));
    expect(JSON.stringify(content)).not.toMatch(/"(pocket|places|apart)"/);
  });
});
