import { describe, expect, it } from 'vitest';
import { plainAsk } from '../ask.ts';
import { askCases } from '../askCases.ts';
import { bagCases } from '../bagCases.ts';
import { leastBag } from '../exhaustive.ts';
import { randomPlan } from '../randomPlan.ts';
import { stackCases } from '../stackCases.ts';
import { middlePlan } from './middlePlan.ts';
import { LinearProgram, lpText } from './program.ts';
import { secondAnswer } from './secondAnswer.ts';
import { findSolver, notRunHere } from './solvers.ts';

const solver = findSolver();

describe('the plain model', () => {
  const cases = [...[...stackCases, ...bagCases].map((one) => ({ ...one, ask: plainAsk('mass') })), ...askCases];

  it('is solved to the answers found by hand', ({ skip }) => {
    if (solver === null) return skip(notRunHere);
    for (const { says, plan, ask, kg } of cases) {
      const value = secondAnswer(plan, ask, solver);
      expect(value === null, says).toBe(kg === null);
      expect(value ?? 0, says).toBeCloseTo(kg ?? 0, 9);
    }
  });

  it('is solved to what the exhaustive search finds', ({ skip }) => {
    if (solver === null) return skip(notRunHere);
    for (let seed = 1; seed <= 24; seed++) {
      const { plan, options } = randomPlan(seed);
      const value = secondAnswer(plan, options, solver);
      const { value: least } = leastBag(plan, options);
      expect(value === null, `seed ${seed}`).toBe(least === null);
      expect(value ?? 0, `seed ${seed}`).toBeCloseTo(least ?? 0, 9);
    }
  });

  it('is written in the LP format with every column named in its order', () => {
    const program = new LinearProgram();
    const [a, b] = [program.column({ cost: 2, upper: 3 }), program.column({ whole: false })];
    program.row(1, 4, [
      [a, 1],
      [b, -0.0000001],
      [a, 1],
    ]);
    expect(lpText(program).split('\n')).toEqual([
      'Minimize',
      ' cost: + 2 c0 + 0 c1',
      'Subject To',
      ' r1: + 2 c0 - 0.0000001 c1 >= 1',
      ' r2: + 2 c0 - 0.0000001 c1 <= 4',
      'Bounds',
      ' 0 <= c0 <= 3',
      ' c1 >= 0',
      'General',
      ' c0',
      'End',
      '',
    ]);
  });
});

describe('a middle-sized plan', () => {
  const plans = Array.from({ length: 100 }, (_, index) => middlePlan(index + 1));

  it('has 6 to 20 steps and 30 to 100 items', () => {
    for (const { seed, plan } of plans) {
      const { sockets, extensions, drivers, torqueTools } = plan.catalog;
      const items = sockets.length + extensions.length + drivers.length + torqueTools.length;
      expect(items, `seed ${seed}`).toBeGreaterThanOrEqual(30);
      expect(items, `seed ${seed}`).toBeLessThanOrEqual(100);
      expect(plan.steps.length, `seed ${seed}`).toBeGreaterThanOrEqual(6);
      expect(plan.steps.length, `seed ${seed}`).toBeLessThanOrEqual(20);
    }
  });

  it('is its seed', () => {
    for (const one of plans.slice(0, 20)) expect(JSON.stringify(middlePlan(one.seed))).toBe(JSON.stringify(one));
  });
});
