/** Time limits, progress and bounds: what an answer says that came before its proof. */
import { describe, expect, it } from 'vitest';
import type { BagOptions, BagProgress } from '../../../renderer/engine/bag/planBag.ts';
import { outingWork } from '../../../renderer/engine/bag/outingWork.ts';
import { planBag } from '../../../renderer/engine/bag/planBag.ts';
import { reduceWork } from '../../../renderer/engine/bag/presolve/reduceWork.ts';
import { outingCosts } from '../../../renderer/engine/bag/solveOuting.ts';
import { noWishes } from '../../../renderer/engine/bag/wishes.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import type { Edit } from '../../support/editJson.ts';
import { all, append, keep, listAt, put } from '../../support/editJson.ts';
import { smallPlan } from '../../support/smallPlan.ts';
import type { Made } from './overheard.ts';
import { overheard } from './overheard.ts';

async function solve(edit: Edit, made: Made[], options: Partial<BagOptions> = {}) {
  const source = smallPlan();
  edit(source);
  const { solver, heard } = await overheard(...made);
  const result = await planBag(planFrom(source), { minimise: 'mass', solver, ...options });
  return { result, heard, limits: heard.map(({ settings }) => settings['time_limit']) };
}

/** So many kilograms as the program of the first outing counts them. */
function inCosts(edit: Edit, kg: number): number {
  const source = smallPlan();
  edit(source);
  const plan = planFrom(source);
  const [outing] = plan.outings;
  const bag = plan.bags.get('B-1');
  if (!outing || !bag) throw new Error('no outing with a bag');
  const reduced = reduceWork(outingWork(plan, outing, { tolerance: 'nothing', wishes: noWishes }), 'mass');
  return outingCosts(plan, reduced, 'mass').ofBag({ ...bag, massKg: kg });
}

const unchanged: Edit = () => undefined;
/** The loosening step in each of three outings. */
const threeOutings: Edit = (plan) => {
  const { outings, steps } = smallPlan();
  const ids = ['O1', 'O2', 'O3'];
  put(
    'outings',
    ids.map((id) => ({ ...outings[0], id })),
  )(plan);
  put(
    'steps',
    ids.map((id) => ({ ...steps[0], id: `loosen-${id}`, outing: id })),
  )(plan);
};

const inSlot = ['Lead', 'Second'].map((role) => ({ ...smallPlan().steps[0], id: role, role, slot: 's' }));
/** Two roles at once, one with a bag of its own; the first bag lays there what the other needs, for want of room. */
const slotted = all(
  put('steps', inSlot),
  ...['sockets[0]', 'extensions[0]', 'drivers[0]'].map((item) => put(`catalog.${item}.onHand`, 2)),
  put('catalog.bags[0].itemsMax', 3),
  append('catalog.bags', { id: 'B-L', role: 'Lead' }),
  put('outings[0].bags', ['B-1', 'B-L']),
);

describe('a time limit', () => {
  it('is shared out over the outings still to come, less the time taken', async () => {
    const made = [{ seconds: 2 }, { seconds: 12 }, { seconds: 1 }];
    const { limits, result } = await solve(threeOutings, made, { timeLimitS: 30 });
    expect(limits).toEqual([30 / 3, 28 / 2, 16]);
    expect(result.status).toBe('optimal');
  });

  it('leaves next to none where one outing took more than all', async () => {
    const { limits } = await solve(threeOutings, [{ seconds: 31 }], { timeLimitS: 30 });
    expect(limits).toEqual([10, 0.01, 0.01]);
  });

  it('is none where none is set', async () => {
    expect((await solve(threeOutings, [])).limits).toEqual([undefined, undefined, undefined]);
  });

  it('is none for whether there is a bag at all, whose time counts', async () => {
    const late: Made = { status: 'timeLimit', findsNothing: true, seconds: 2, bound: 0 };
    const roles = all(slotted, append('outings', { id: 'O2', roles: ['Lead', 'Second'], bags: ['B-1', 'B-L'] }));
    const again = (plan: unknown) =>
      listAt(plan, 'steps').push(...inSlot.map((step) => ({ ...step, id: `${step.id}-2`, outing: 'O2' })));
    const { limits, heard, result } = await solve(all(roles, again), [late, { seconds: 3 }, { seconds: 4 }], {
      timeLimitS: 29,
    });
    expect(limits).toEqual([29 / 2, undefined, 29 - 5]);
    expect(heard.map(({ costs }) => costs.some((cost) => cost !== 0))).toEqual([true, false, true]);
    expect(result.status).toBe('stopped');
    expect(result.outings.map(({ steps }) => steps.map(({ stack }) => stack.length))).toEqual([
      [3, 3],
      [3, 3],
    ]);
  });
});

describe('a first bag', () => {
  const heavy = put('catalog.bags[0].mass', '500 g');
  const one = all(keep('steps', 1), heavy);

  it('is what the solver begins with, column for column, at the cost of the least where it is the least', async () => {
    const { heard, result } = await solve(one, []);
    const [first] = heard;
    const { start, costs } = first ?? { start: null, costs: [] };
    const cost = [...(start ?? [])].reduce((sum, [column, value]) => sum + value * (costs[column] ?? Number.NaN), 0);
    // Three pieces are counted in beside the mass.
    expect(cost).toBe(inCosts(one, 0.97) + 3);
    expect(result.objective?.value).toBeCloseTo(0.97, 12);
  });

  it('is the answer where the solver finds none in time', async () => {
    const { heard, result } = await solve(one, [{ status: 'timeLimit', findsNothing: true, bound: 0 }]);
    expect(heard).toHaveLength(1);
    expect(result).toMatchObject({ status: 'stopped', objective: { value: 0.97, bound: expect.closeTo(0.47, 12) } });
    expect(result.outings[0]?.steps[0]?.stack).toEqual(['R-38', 'X-3', 'S-9/16']);
  });

  it('is the answer without asking the solver where nothing can weigh less', async () => {
    const { heard, result } = await solve(all(one, put('catalog.bags[0].mass', '0 g')), []);
    expect(heard).toEqual([]);
    expect(result).toMatchObject({ status: 'optimal', objective: { value: expect.closeTo(0.47, 12), gap: 0 } });
  });

  it('is none where it finds no room; the solver then begins with nothing', async () => {
    // Greatest first, the 300 g fill what the 250 and 50 g need: only 300 | 250 + 50 goes.
    const packing = all(
      one,
      put('catalog.drivers[0].mass', '300 g'),
      put('catalog.extensions[0].mass', '200 g'),
      keep('catalog.extensions', 1),
      put('catalog.sockets[0].mass', '200 g'),
      keep('catalog.sockets', 1),
      put('catalog.bags', [
        { id: 'B-1', mass: '1 g', massMax: '400 g' },
        { id: 'B-2', mass: '2 g', massMax: '300 g' },
      ]),
      put('outings[0].bags', ['B-1', 'B-2']),
    );
    const { heard, result } = await solve(packing, []);
    expect(heard.map(({ start }) => start)).toEqual([null]);
    expect(result).toMatchObject({ status: 'optimal', objective: { value: expect.closeTo(0.703, 12) } });
  });

  it('is none where none can be: the outing then says what is lacking', async () => {
    const none = all(one, put('catalog.bags[0].massMax', '100 g'));
    const { result } = await solve(none, [{ status: 'timeLimit', findsNothing: true, bound: 0 }]);
    expect(result).toMatchObject({ status: 'infeasible', objective: null });
    expect(result.infeasible[0]?.reason).toMatch(/0\.1 kg, 0\.47 kg needed/);
  });
});

describe('the bound of an answer that was stopped', () => {
  const bare = put('catalog.bags[0].mass', '500 g');
  const bounded = async (edit: Edit, bound: number, minimise: BagOptions['minimise'] = 'mass') =>
    (
      await solve(edit, [{ status: 'timeLimit', bound: minimise === 'mass' ? inCosts(edit, bound) : bound }], {
        minimise,
      })
    ).result;

  it('is the solver’s, in kilograms', async () => {
    const result = await bounded(bare, 1.7);
    expect(result).toMatchObject({ status: 'stopped', objective: { bound: expect.closeTo(1.7, 12) as number } });
    expect(result.objective?.value).toBeCloseTo(1.91, 12);
    expect(result.objective?.gap).toBeCloseTo((1.91 - 1.7) / 1.91, 12);
  });

  it('is never less than the gear and the least of the most demanding step', async () => {
    // 2 × 20 g of gear; the torque tool, an extension and a socket are 1.07 kg.
    expect((await bounded(bare, -Infinity)).objective?.bound).toBeCloseTo(1.07 + 0.04, 12);
    expect((await bounded(bare, -Infinity, 'count')).objective?.bound).toBe(3 + 2);
    expect((await bounded(keep('steps', 1), -Infinity)).objective?.bound).toBeCloseTo(0.47, 12);
    const two = all(keep('steps', 1), keep('catalog.extensions', 1), put('catalog.extensions[0].onHand', 2));
    expect((await bounded(all(two, put('steps[0].access.depth', '7 in')), -Infinity)).objective?.bound).toBeCloseTo(
      0.3 + 2 * 0.11 + 0.06,
      12,
    );
  });

  it('counts a hold with the step', async () => {
    const held = all(
      put('steps[1].hold', { fastener: 'F1', access: { depth: '1 in' } }),
      put('catalog.sockets[0].onHand', 2),
    );
    expect((await bounded(held, -Infinity)).objective?.bound).toBeCloseTo(1.07 + 0.36 + 0.04, 12);
  });

  it('proves a bag that is no heavier', async () => {
    expect(await bounded(bare, 1.91)).toMatchObject({ status: 'optimal', objective: { gap: 0 } });
    // A bound above what is packed is none: what is packed can be had.
    expect((await bounded(bare, 2)).objective?.bound).toBe((await bounded(bare, 2)).objective?.value);
  });

  it('adds up over the outings, those that were proved counting in full', async () => {
    const { result } = await solve(threeOutings, [{}, { status: 'timeLimit', bound: inCosts(threeOutings, 0.9) }, {}]);
    expect(result.status).toBe('stopped');
    expect(result.objective?.value).toBeCloseTo(3 * 0.97, 12);
    expect(result.objective?.bound).toBeCloseTo(0.97 + 0.9 + 0.97, 12);
  });

  it('is nothing for gear alone but the gear', async () => {
    const gear = put('steps', smallPlan().steps.slice(2));
    expect((await bounded(gear, -Infinity)).objective?.bound).toBeCloseTo(0.04, 12);
  });
});

describe('progress', () => {
  it('is told by outing, in the objective’s unit', async () => {
    const told: BagProgress[] = [];
    const costs = (kg: number) => inCosts(threeOutings, kg);
    const made: Made[] = [
      { tells: { mip_primal_bound: costs(0.97), mip_dual_bound: costs(0.5) } },
      { tells: { mip_primal_bound: costs(0.97), mip_dual_bound: costs(0.1) } },
    ];
    await solve(threeOutings, made, { onProgress: (progress) => told.push(progress) });
    const close = (kg: number): number => expect.closeTo(kg, 12) as number;
    // Of every outing the first bag and what any needs; then what the solver says, where it says more.
    expect(told).toEqual([
      { outing: 'O1', best: close(0.97), bound: close(0.47) },
      { outing: 'O2', best: close(0.97), bound: close(0.47) },
      { outing: 'O3', best: close(0.97), bound: close(0.47) },
      { outing: 'O1', best: close(0.97), bound: close(0.5) },
      { outing: 'O2', best: close(0.97), bound: close(0.47) },
    ]);
  });

  it('is told to nobody who does not ask', async () => {
    const { result } = await solve(unchanged, [{ tells: { mip_primal_bound: 1 } }]);
    expect(result.status).toBe('optimal');
  });
});

describe('an answer that does not stand up to its second count', () => {
  it.each([
    ['one', unchanged, /^the answer does not stand up to its second count: 1 × C-1 packed, 2 needed$/],
    ['of a later outing', append('outings', { id: 'O2', roles: ['Lead'], bags: ['B-1'] }), /1 × C-1 packed/],
  ])('is never given out: %s', async (_name, edit, said) => {
    // Of all that is packed only the gear is there twice.
    const columns = (values: number[]) => values.map((value) => (value === 2 ? 1 : value));
    await expect(solve(edit, [{ columns }])).rejects.toMatchObject({
      refusal: { code: 'internal', message: expect.stringMatching(said) as string },
    });
  });
});
