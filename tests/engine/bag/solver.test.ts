/** The solver: what it is handed, what is made of its answer, and what is measured of an item. */
import { beforeAll, describe, expect, it } from 'vitest';
import type { Highs } from 'highs';
import { carriedItem, measured, volumeL } from '../../../renderer/engine/bag/measure.ts';
import { IntegerProgram, solverSettings } from '../../../renderer/engine/bag/model/integerProgram.ts';
import { loadSolver } from '../../../renderer/engine/bag/solver.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import { smallPlan } from '../../support/smallPlan.ts';
import { overheard } from './overheard.ts';

let highs: Highs;
beforeAll(async () => {
  highs = await loadSolver();
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

  it('is left no gap, and stops for nothing but the time', () => {
    const exact = {
      mip_rel_gap: 0,
      mip_abs_gap: 0,
      primal_feasibility_tolerance: 1e-9,
      mip_feasibility_tolerance: 1e-9,
    };
    expect(solverSettings(10, {})).toMatchObject(exact);
    expect(Object.keys(solverSettings(10, {}))).not.toContain('time_limit');
    expect(solverSettings(10, { timeLimitS: 0 })).toMatchObject({ ...exact, time_limit: 0 });
  });

  it('begins with what it is given, and not where that falls short', () => {
    const start = new Map([
      [0, 1],
      [1, 2],
    ]);
    expect(program().solve(highs, { start })).toMatchObject({ status: 'optimal', columns: [2, 1], bound: 4 });
    const short = new Map([
      [0, 2],
      [1, 0],
    ]);
    expect(program().solve(highs, { start: short })).toMatchObject({ status: 'optimal', columns: [2, 1], bound: 4 });
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
