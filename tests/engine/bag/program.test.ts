/** The integer program of an outing: what the solver is handed, and what is made of its answer. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Highs } from 'highs';
import type { Minimised } from '../../../shared-types/bag.ts';
import { bagModel } from '../../../renderer/engine/bag/bagModel.ts';
import { IntegerProgram, solverSettings } from '../../../renderer/engine/bag/integerProgram.ts';
import { carriedItem, measured, volumeL } from '../../../renderer/engine/bag/measure.ts';
import { outingWork } from '../../../renderer/engine/bag/outingWork.ts';
import { loadSolver } from '../../../renderer/engine/bag/solver.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import type { Edit } from '../../support/editJson.ts';
import { all, keep, put } from '../../support/editJson.ts';
import { smallPlan } from '../../support/smallPlan.ts';
import { overheard } from './overheard.ts';

let highs: Highs;
beforeAll(async () => {
  highs = await loadSolver();
});

function modelled(edit: Edit, minimise: Minimised = 'mass', elastic = false) {
  const source = smallPlan();
  edit(source);
  const plan = planFrom(source);
  const [outing] = plan.outings;
  if (!outing) throw new Error('no outing');
  const model = bagModel(plan, outingWork(plan, outing), minimise, elastic);
  const data = model.program.modelData();
  const row = (index: number) => {
    const { starts, indices, values } = data.matrix;
    const [from, to] = [starts[index] ?? 0, starts[index + 1]];
    return indices.slice(from, to).map((column, n) => [column, values.slice(from, to)[n]]);
  };
  const rows = data.rowLower.map((lower, n) => ({ lower, upper: data.rowUpper[n], terms: row(n) }));
  const uppers = Object.fromEntries(model.lying.map(({ item, bag, upper }) => [`${item.id} in ${bag.id}`, upper]));
  const costs = Object.fromEntries(model.lying.map(({ item, column }) => [item.id, data.colCost[column]]));
  return { model, data, rows, uppers, costs };
}

const unchanged: Edit = () => undefined;
const onHand = (count: number): Edit =>
  all(
    ...['sockets[0]', 'sockets[1]', 'extensions[0]', 'extensions[1]', 'drivers[0]', 'torqueTools[0]'].map((item) =>
      put(`catalog.${item}.onHand`, count),
    ),
  );
const held = put('steps[1].hold', { fastener: 'F1', access: { depth: '2 in' } });

describe('the pieces that may lie in a bag', () => {
  it('are no more than each role’s greatest need at one time, and than are on hand', () => {
    expect(modelled(onHand(9)).uppers).toEqual({
      'R-38 in B-1': 1,
      'TT-2 in B-1': 1,
      'X-3 in B-1': 1,
      'X-6 in B-1': 1,
      'S-9/16 in B-1': 1,
      'S-9/16-12 in B-1': 1,
      'C-1 in B-1': 2,
    });
    // With a hold a step uses two of a socket at one time; the loosening step before it one.
    expect(modelled(all(onHand(9), held)).uppers).toMatchObject({
      'R-38 in B-1': 1,
      'S-9/16 in B-1': 2,
      'X-3 in B-1': 2,
    });
    expect(modelled(all(onHand(1), held)).uppers).toMatchObject({ 'S-9/16 in B-1': 1, 'X-3 in B-1': 1 });
  });

  it('add up over the roles, and of one role’s steps the most counts, wherever it comes', () => {
    const deep = put('steps[0].access.depth', '7 in');
    const oneLength = all(onHand(9), keep('catalog.extensions', 1));
    const byOrder = (edit: Edit) => modelled(all(oneLength, edit)).uppers['X-3 in B-1'];
    expect(byOrder(deep)).toBe(2);
    expect(byOrder(all(deep, put('steps', smallPlan().steps.toReversed()), put('steps[2].access.depth', '7 in')))).toBe(
      2,
    );
    expect(byOrder(all(deep, put('steps[1].role', 'Second')))).toBe(3);
  });

  it('cost grams, pieces or millilitres each', () => {
    const volumes = all(
      ...[
        'sockets[0]',
        'sockets[1]',
        'extensions[0]',
        'extensions[1]',
        'drivers[0]',
        'torqueTools[0]',
        'carryGear[0]',
      ].map((item) => put(`catalog.${item}.volume`, '250 mL')),
    );
    expect(modelled(unchanged).costs).toMatchObject({ 'R-38': 300, 'TT-2': 900, 'C-1': 20 });
    expect(new Set(Object.values(modelled(unchanged, 'count').costs))).toEqual(new Set([1]));
    expect(modelled(volumes, 'volume').costs).toMatchObject({ 'R-38': 250, 'C-1': 250 });
  });
});

describe('the rows and columns of a program', () => {
  it('choose each stack or not, at no cost of its own, in whole numbers', () => {
    const { model, data } = modelled(unchanged);
    const columns = model.groups.flatMap(({ stacks }) => stacks.map(({ column }) => column));
    expect(columns.length).toBeGreaterThan(4);
    for (const column of columns) {
      expect([data.colUpper[column], data.colCost[column], data.colLower[column]]).toEqual([1, 0, 0]);
    }
    expect(new Set(data.integrality)).toEqual(new Set([1]));
  });

  it('let the draws of a slot on shared bags come in parts', () => {
    const [loosen] = smallPlan().steps;
    const slotted = put(
      'steps',
      ['Lead', 'Second'].map((role) => ({ ...loosen, id: role, role, slot: 's' })),
    );
    const { data } = modelled(slotted);
    // Five pieces, each drawn by either role.
    expect(data.integrality.filter((kind) => kind === 0)).toHaveLength(2 * 5);
    expect(data.colUpper.filter((upper) => upper === Infinity)).toHaveLength(2 * 5);
  });

  it('count the mass of a bag that holds something, where mass is minimised and the bag has any', () => {
    const { data, model, rows } = modelled(unchanged);
    const column = data.colCost.indexOf(500);
    expect(data.colUpper[column]).toBe(1);
    for (const { column: lying, upper } of model.lying)
      expect(rows).toContainEqual({
        lower: 0,
        upper: Infinity,
        terms: [
          [column, upper],
          [lying, -1],
        ],
      });
    const { numCols } = data;
    const columnsOf = (edit: Edit, minimise: Minimised = 'mass') => modelled(edit, minimise).data.numCols;
    expect(columnsOf(put('catalog.bags[0].mass', '0 g'))).toBe(numCols - 1);
    expect(columnsOf(put('catalog.bags[0].mass', '1 kg'))).toBe(numCols);
    expect(columnsOf(unchanged, 'count')).toBe(numCols - 1);
  });

  it('have the limits of a bag as shares, and a limit of nothing as it is', () => {
    const limited = all(put('catalog.bags[0].itemsMax', 4), put('catalog.bags[0].tetherPoints', 0));
    const { rows, model } = modelled(all(limited, put('catalog.torqueTools[0].tethers', 2)));
    const tool = model.lying.find(({ item }) => item.id === 'TT-2')?.column;
    const bound = rows.filter(({ lower, terms }) => lower === -Infinity && terms.length === model.lying.length);
    expect(bound.map(({ upper }) => upper)).toEqual([1, 1, 0]);
    const ofTool = bound.map(({ terms }) => terms.find(([column]) => column === tool)?.[1]);
    expect(ofTool).toEqual([0.9 / 4, 1 / 4, 2]);
  });

  it('bend at a cost of one a piece or one a limit where limits bend, and nothing else costs', () => {
    const { data, rows, model } = modelled(all(onHand(1), held), 'count', true);
    // Six pieces and the mass of the one bag.
    const bending = data.colCost.flatMap((cost, column) => (cost === 0 ? [] : [{ cost, column }]));
    expect(bending.map(({ cost }) => cost)).toEqual(Array.from({ length: 7 }, () => 1));
    for (const { column } of bending) {
      const at = rows.flatMap(({ terms }) => terms.filter(([other]) => other === column));
      expect(at).toEqual([[column, -1]]);
    }
    expect(data.integrality[bending.at(-1)?.column ?? 0]).toBe(0);
    expect(model.lying.find(({ item }) => item.id === 'S-9/16')?.upper).toBe(2);
    // A bag's own mass is no limit.
    expect(modelled(all(onHand(1), held, put('catalog.bags[0].mass', '0 g')), 'mass', true).data.numCols).toBe(
      modelled(all(onHand(1), held), 'mass', true).data.numCols,
    );
  });
});

describe('a program without columns', () => {
  const solved = (rows: (program: IntegerProgram) => void) => {
    const program = new IntegerProgram();
    rows(program);
    return program.solve(highs);
  };

  it.each<[string, (program: IntegerProgram) => void, boolean]>([
    ['nothing', () => undefined, true],
    ['at least 0', (p) => p.atLeast(0, []), true],
    ['at least 1', (p) => p.atLeast(1, []), false],
    ['at most 0', (p) => p.atMost(0, []), true],
    ['at most -1', (p) => p.atMost(-1, []), false],
    ['exactly 0', (p) => p.equal(0, []), true],
    ['exactly 2', (p) => p.equal(2, []), false],
  ])('asks for %s', (_name, rows, possible) => {
    expect(solved(rows)).toEqual(
      possible
        ? { status: 'optimal', columns: [], bound: 0, seconds: 0 }
        : { status: 'infeasible', columns: null, bound: Infinity, seconds: 0 },
    );
  });
});

describe('the solver', () => {
  /** The least a + 2b with a + b ≥ 3 and a ≤ 2. */
  const program = (): IntegerProgram => {
    const made = new IntegerProgram();
    const [a, b] = [made.column({ cost: 1, upper: 2 }), made.column({ cost: 2 })];
    made.atLeast(3, [
      [a, 1],
      [b, 1],
    ]);
    return made;
  };

  it('finds the least, and says so', () => {
    expect(program().solve(highs)).toMatchObject({ status: 'optimal', columns: [2, 1], bound: 4 });
  });

  it('finds anything that can be where costs are dropped', () => {
    const free = program();
    free.dropCosts();
    expect(new Set(free.modelData().colCost)).toEqual(new Set([0]));
    expect(free.solve(highs)).toMatchObject({ status: 'optimal', bound: 0 });
  });

  it('says what cannot be, in either of its words', async () => {
    const none = program();
    none.atMost(1, [
      [0, 1],
      [1, 1],
    ]);
    expect(none.solve(highs)).toMatchObject({ status: 'infeasible', columns: null });
    const { solver } = await overheard({ status: 'unboundedOrInfeasible', seconds: 3 });
    expect(program().solve(solver)).toEqual({ status: 'infeasible', columns: null, bound: Infinity, seconds: 3 });
  });

  it('counts a column of a row once, however often the row names it', () => {
    const twice = new IntegerProgram();
    const a = twice.column({ cost: 1 });
    twice.atLeast(6, [
      [a, 1],
      [a, 2],
    ]);
    expect(twice.solve(highs).columns).toEqual([2]);
  });

  it('has its whole numbers rounded to whole, and those in parts left', async () => {
    const parts = program();
    parts.column({ integer: false });
    const { solver } = await overheard({ columns: ([a = 0, b = 0]) => [a - 1e-10, b + 1e-10, 0.5] });
    expect(parts.solve(solver).columns).toEqual([2, 1, 0.5]);
  });

  it('tells what it has and what it has proved, and nothing where it has none', async () => {
    const { solver } = await overheard(
      { tells: { mip_primal_bound: 12.5, mip_dual_bound: -3 } },
      { tells: { mip_primal_bound: Infinity, mip_dual_bound: -Infinity } },
      { tells: {} },
      { tells: { mip_primal_bound: 1 } },
    );
    const told: unknown[] = [];
    for (let n = 0; n < 3; n += 1) program().solve(solver, { onProgress: (progress) => told.push(progress) });
    expect(told).toEqual([
      { best: 12.5, bound: -3 },
      { best: null, bound: null },
      { best: null, bound: null },
    ]);
    // Where nobody listens, nothing is told.
    expect(program().solve(solver)).toMatchObject({ status: 'optimal' });
  });

  it('is left no gap, and only for a first bag stops at one', () => {
    const exact = {
      mip_rel_gap: 0,
      mip_abs_gap: 0,
      primal_feasibility_tolerance: 1e-9,
      mip_feasibility_tolerance: 1e-9,
    };
    const settings = solverSettings(10, {});
    expect(settings).toMatchObject(exact);
    expect(Object.keys(settings)).not.toContain('mip_max_improving_sols');
    expect(Object.keys(settings)).not.toContain('time_limit');
    expect(solverSettings(10, { firstOnly: true, timeLimitS: 0 })).toMatchObject({
      ...exact,
      mip_max_improving_sols: 1,
      time_limit: 0,
    });
  });

  it('looks for no reductions past 3000 columns', () => {
    expect(Object.keys(solverSettings(3000, {}))).not.toContain('presolve');
    expect(solverSettings(3001, {})).toMatchObject({ presolve: 'off', mip_detect_symmetry: false });
  });
});

describe('the measure of an item', () => {
  const plan = planFrom(smallPlan());

  it('is its mass, its volume, or one', () => {
    const item = { ...carriedItem(plan.carried, 'R-38'), volumeL: 0.25 };
    expect((['mass', 'volume', 'count'] as const).map((minimise) => measured(item, minimise))).toEqual([0.3, 0.25, 1]);
  });

  it('is no number for an item of no volume, or of no name', () => {
    expect(() => volumeL(carriedItem(plan.carried, 'X-3'))).toThrow('no volume is given for X-3');
    expect(() => carriedItem(plan.carried, 'X-9')).toThrow('X-9');
  });
});
