import { describe, expect, it } from 'vitest';
import type { Block } from '../../../renderer/engine/outing/proposals/blocks.ts';
import { orderProposals, reordered } from '../../../renderer/engine/outing/proposals/orders.ts';
import {
  costOf,
  exactOrder,
  isAllowed,
  isBetter,
  looseAtStart,
  searchedOrder,
  type Aim,
} from '../../../renderer/engine/outing/proposals/orderSearch.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import type { BagOuting } from '../../../shared-types/bag.ts';
import type { PlanStep } from '../../../shared-types/plan.ts';
import { dice as diceOf, type Dice } from '../../reference/dice.ts';
import { coursePlan, step } from './coursePlan.ts';

function randomBlocks(dice: Dice, count: number): Block[] {
  return Array.from({ length: count }, (_, index): Block => {
    const delta = dice.whole(-2, 3);
    const strings = Array.from({ length: dice.whole(0, 2) }, () => ({
      role: dice.pick(['Lead', 'Second']),
      string: dice.pick(['a', 'b', 'c']),
    }));
    const after = new Set(Array.from({ length: index }, (_unused, at) => at).filter(() => dice.chance(0.25)));
    return { steps: [], free: true, after, strings, loose: { delta, peak: Math.max(0, delta) + dice.whole(0, 1) } };
  });
}

function permutations(count: number): number[][] {
  if (count === 0) return [[]];
  return permutations(count - 1).flatMap((order) =>
    Array.from({ length: count }, (_, at) => order.toSpliced(at, 0, count - 1)),
  );
}

const aims: Aim[] = ['tool-changes', 'loose-pieces'];

/** The two figures of an order, counted here step by step. */
function figures(blocks: readonly Block[], order: readonly number[], start: number): [number, number] {
  const hand: Record<string, string> = {};
  let changes = 0;
  let level = start;
  let peak = start;
  for (const index of order) {
    const block = blocks[index] as Block;
    for (const { role, string } of block.strings) {
      if ((hand[role] ?? string) !== string) changes += 1;
      hand[role] = string;
    }
    peak = Math.max(peak, level + block.loose.peak);
    level += block.loose.delta;
  }
  return [changes, peak];
}

describe('an order of blocks', () => {
  it('is the best of all allowed ones in its aim, for 120 random outings of up to six', () => {
    for (let seed = 1; seed <= 120; seed += 1) {
      const dice = diceOf(seed);
      const blocks = randomBlocks(dice, dice.whole(1, 6));
      const start = looseAtStart(blocks);
      const allowed = permutations(blocks.length).filter((order) => isAllowed(blocks, order));
      for (const [at, aim] of aims.entries()) {
        const order = exactOrder(blocks, aim, start) ?? [];
        expect(isAllowed(blocks, order), `seed ${seed}`).toBe(true);
        const found = figures(blocks, order, start)[at];
        expect(found, `seed ${seed}, ${aim}`).toBe(
          Math.min(...allowed.map((one) => figures(blocks, one, start)[at] ?? 0)),
        );
        expect(costOf(blocks, order, start)).toMatchObject(
          Object.fromEntries([
            ['toolChanges', 'loosePeak'].map((name, i) => [name, figures(blocks, order, start)[i]])[at] ?? [],
          ]),
        );
      }
    }
  });

  it('is never worse than the listed one where it is searched for, never better than the best, and the same each time', () => {
    let equal = 0;
    for (let seed = 1; seed <= 40; seed += 1) {
      const blocks = randomBlocks(diceOf(seed), 8);
      const start = looseAtStart(blocks);
      const listed = blocks.map((_, index) => index);
      for (const aim of aims) {
        const x = { start, seed: 1, tries: 2000 };
        const order = searchedOrder(blocks, aim, x);
        expect(searchedOrder(blocks, aim, x)).toEqual(order);
        expect(isAllowed(blocks, order)).toBe(true);
        const [found, best] = [order, exactOrder(blocks, aim, start) ?? []].map((one) => costOf(blocks, one, start));
        if (found === undefined || best === undefined) throw new Error('no order');
        expect(isBetter(costOf(blocks, listed, start), found, aim)).toBe(false);
        const key = aim === 'tool-changes' ? 'toolChanges' : 'loosePeak';
        expect(found[key]).toBeGreaterThanOrEqual(best[key]);
        if (found[key] === best[key]) equal += 1;
      }
    }
    expect(equal).toBeGreaterThanOrEqual(76);
  });

  it('is not looked for exactly among more than 12 open blocks', () => {
    expect(exactOrder(randomBlocks(diceOf(1), 13), 'tool-changes', 0)).toBeNull();
  });
});

const stacks: Record<string, string[]> = { a: ['rt', 's10'], b: ['rt', 's13'], c: ['rt', 's10'], d: ['rt', 's13'] };
const answer: BagOuting = {
  id: 'O1',
  massKg: 1,
  items: ['rt', 's10', 's13'].map((id) => ({ id, quantity: 1, bag: 'B', because: ['a'] })),
  steps: Object.entries(stacks).map(([id, stack]) => ({ id, stack, hold: null, setting: null })),
};
const carried = { mass: '100 g', onHand: 1, drive: '10 mm' };
const catalog = {
  fasteners: [{ id: 'F', thread: 'M6', head: { form: 'hex', acrossFlats: '10 mm' } }],
  drivers: [{ ...carried, id: 'rt', max: '50 N·m' }],
  sockets: ['s10', 's13'].map((id) => {
    const opening = { form: 'hex6', size: `${id.slice(1)} mm` };
    return { ...carried, id, opening, length: '20 mm', outsideDiameter: '16 mm', ratedTorque: '50 N·m' };
  }),
  bags: [{ id: 'B', massMax: '5 kg' }],
};

function proposalsFor(...steps: PlanStep[]) {
  const plan = planFrom(coursePlan({ steps, catalog, outing: { bags: ['B'] }, places: [{ id: 'tray' }] }));
  const [outing] = plan.outings;
  if (outing === undefined) throw new Error('no outing');
  return { plan, outing, proposals: orderProposals(plan, [answer], outing) };
}

describe('a proposed order', () => {
  it('puts steps with the same string of parts after each other where their place is open', () => {
    const { proposals, plan, outing } = proposalsFor(
      step('a', 'Lead', { minutes: 3 }),
      step('b', 'Lead', { minutes: 4 }),
      step('c', 'Lead', { minutes: 5, after: [] }),
    );
    expect(proposals).toEqual([
      {
        aim: 'tool-changes',
        order: ['a', 'c', 'b'],
        before: { toolChanges: 2, loosePeak: 0, endMin: 12 },
        after: { toolChanges: 1, loosePeak: 0, endMin: 12 },
        how: 'exact',
      },
    ]);
    expect(reordered(plan, outing, ['c', 'a', 'b']).steps.map(({ id }) => id)).toEqual(['c', 'a', 'b']);
    expect(
      plan.steps.map(({ id }) => id),
      'the plan is left as it is',
    ).toEqual(['a', 'b', 'c']);
  });

  it('is none where the plan says nothing of the order', () => {
    expect(proposalsFor(step('a', 'Lead'), step('b', 'Lead'), step('c', 'Lead')).proposals).toEqual([]);
  });

  it('never puts a step before one it must come after', () => {
    expect(proposalsFor(step('a', 'Lead'), step('b', 'Lead'), step('c', 'Lead', { after: ['b'] })).proposals).toEqual(
      [],
    );
  });

  it('keeps the steps of a slot together', () => {
    const { proposals } = proposalsFor(
      step('a', 'Lead', { slot: 'x', after: [] }),
      step('b', 'Second', { slot: 'x', after: [] }),
      step('d', 'Lead', { after: [] }),
      step('c', 'Lead', { after: [] }),
    );
    expect(proposals.map(({ order }) => order)).toEqual([['d', 'a', 'b', 'c']]);
    for (const { order } of proposals) expect(Math.abs(order.indexOf('a') - order.indexOf('b'))).toBe(1);
  });

  it('lets loose pieces go back before others come out', () => {
    const out = (id: string) => ({ id, quantity: 4, from: 'site', to: 'tray' });
    const fasteners = ['F', 'G'].map((id) => ({ id, thread: 'M6', head: { form: 'hex', acrossFlats: '10 mm' } }));
    const plan = planFrom(
      coursePlan({
        steps: [
          step('out-F', 'Lead', { after: [], fastenerMoves: [out('F')] }),
          step('out-G', 'Lead', { after: [], fastenerMoves: [out('G')] }),
          step('in-F', 'Lead', { after: ['out-F'], fastenerMoves: [{ ...out('F'), from: 'tray', to: 'site' }] }),
          step('in-G', 'Lead', { after: ['out-G'], fastenerMoves: [{ ...out('G'), from: 'tray', to: 'site' }] }),
        ],
        catalog: { fasteners },
        places: [{ id: 'tray' }],
      }),
    );
    const [outing] = plan.outings;
    const proposals = outing === undefined ? [] : orderProposals(plan, [], outing);
    expect(proposals).toMatchObject([
      {
        aim: 'loose-pieces',
        order: ['out-F', 'in-F', 'out-G', 'in-G'],
        before: { loosePeak: 8 },
        after: { loosePeak: 4 },
      },
    ]);
  });
});
