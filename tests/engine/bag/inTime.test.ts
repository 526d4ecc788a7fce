/** Time limits, progress and bounds: what an answer says that came before its proof. */
import { describe, expect, it } from 'vitest';
import type { BagOptions, BagProgress } from '../../../renderer/engine/bag/planBag.ts';
import { planBag } from '../../../renderer/engine/bag/planBag.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import type { Edit } from '../../support/editJson.ts';
import { all, append, keep, put } from '../../support/editJson.ts';
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

describe('a time limit', () => {
  it('is shared out over the outings still to come, less the time taken', async () => {
    const made = [{ seconds: 2 }, { seconds: 12 }, { seconds: 1 }];
    const { limits, result } = await solve(threeOutings, made, { timeLimitS: 30 });
    expect(limits).toEqual([30 / 3, 28 / 2, 16]);
    expect(result.status).toBe('optimal');
  });

  it('leaves none, and no less, where one outing took more than all', async () => {
    const { limits } = await solve(threeOutings, [{ seconds: 31 }], { timeLimitS: 30 });
    expect(limits).toEqual([10, 0, expect.closeTo(0, 2)]);
  });

  it('is none where none is set', async () => {
    expect((await solve(threeOutings, [])).limits).toEqual([undefined, undefined, undefined]);
  });

  it('counts every try for a first bag as time taken', async () => {
    const first: Made = { status: 'timeLimit', findsNothing: true, seconds: 2, bound: 0 };
    const { limits, heard } = await solve(threeOutings, [first, { ...first, seconds: 3 }, { seconds: 4 }], {
      timeLimitS: 29,
    });
    expect(limits).toEqual([29 / 3, 29 / 3, undefined, 20 / 2, expect.any(Number)]);
    expect(heard.map(({ settings }) => settings['mip_max_improving_sols'])).toEqual([
      undefined,
      undefined,
      1,
      undefined,
      undefined,
    ]);
  });
});

describe('a first bag', () => {
  const many = all(
    keep('catalog.extensions', 1),
    keep('steps', 1),
    put(
      'catalog.sockets',
      Array.from({ length: 9 }, (_, n) => ({ ...smallPlan().catalog.sockets[0], id: `S${n}`, mass: `${60 + n} g` })),
    ),
  );
  const stopped: Made = { status: 'timeLimit', findsNothing: true, bound: 0 };

  it('is looked for among the six lightest stacks of a step', async () => {
    const { heard, result } = await solve(many, [stopped]);
    // Pieces: driver, extension, nine sockets; nine stacks; the bag.
    expect(heard.map(({ columns }) => columns)).toEqual([11 + 9 + 1, 8 + 6 + 1]);
    expect(result.outings[0]?.steps[0]?.stack).toEqual(['R-38', 'X-3', 'S0']);
  });

  it('and the six lightest holds', async () => {
    const { torqueTools } = smallPlan().catalog;
    const [, tighten] = smallPlan().steps;
    const held = all(
      many,
      put('steps', [{ ...tighten, hold: { fastener: 'F1' } }]),
      put('catalog.torqueTools', torqueTools),
    );
    const { heard, result } = await solve(held, [stopped]);
    // With tool and driver, nine stacks and nine holds.
    expect(heard.map(({ columns }) => columns)).toEqual([12 + 18 + 1, 9 + 12 + 1]);
    expect(result.outings[0]?.steps[0]?.hold).toEqual(['R-38', expect.any(String)]);
  });

  it('is the one found, where one is', async () => {
    const { heard } = await solve(many, [{ status: 'timeLimit', bound: 0 }]);
    expect(heard).toHaveLength(1);
  });

  it('is none where none can be: the outing then says what is lacking', async () => {
    const none = all(many, put('catalog.bags[0].massMax', '100 g'));
    const { result } = await solve(none, [{ status: 'timeLimit', findsNothing: true, bound: 0 }]);
    expect(result).toMatchObject({ status: 'infeasible', objective: null });
    expect(result.infeasible[0]?.reason).toMatch(/0\.1 kg, 0\.47 kg needed/);
  });
});

describe('the bound of an answer that was stopped', () => {
  const bare = put('catalog.bags[0].mass', '500 g');
  const bounded = async (edit: Edit, bound: number, minimise: BagOptions['minimise'] = 'mass') =>
    (await solve(edit, [{ status: 'timeLimit', bound }], { minimise })).result;

  it('is the solver’s, in kilograms', async () => {
    const result = await bounded(bare, 1700);
    expect(result).toMatchObject({ status: 'stopped', objective: { bound: 1.7 } });
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
    expect(await bounded(bare, 1910)).toMatchObject({ status: 'optimal', objective: { gap: 0 } });
    // A bound above what is packed is none: what is packed can be had.
    expect((await bounded(bare, 2000)).objective?.bound).toBe((await bounded(bare, 2000)).objective?.value);
  });

  it('adds up over the outings, those that were proved counting in full', async () => {
    const { result } = await solve(threeOutings, [{}, { status: 'timeLimit', bound: 900 }, {}]);
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
    const made: Made[] = [{ tells: { mip_primal_bound: 2500, mip_dual_bound: 500 } }, { tells: {} }];
    await solve(threeOutings, made, { onProgress: (progress) => told.push(progress) });
    expect(told).toEqual([
      { outing: 'O1', best: 2.5, bound: 0.5 },
      { outing: 'O2', best: null, bound: null },
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
    // Of the seven kinds of pieces the gear comes last.
    const columns = (values: number[]) => values.map((value, n) => (n === 6 ? value - 1 : value));
    await expect(solve(edit, [{ columns }])).rejects.toMatchObject({
      refusal: { code: 'internal', message: expect.stringMatching(said) as string },
    });
  });
});
