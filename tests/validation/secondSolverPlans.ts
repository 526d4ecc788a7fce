/** A share of the comparison with a second solver, as one test file runs it; several files keep every core at work. */
import { describe, expect, it } from 'vitest';
import { planBag } from '../../renderer/engine/bag/planBag.ts';
import { readPlan } from '../../renderer/engine/plan/readPlan.ts';
import { judge } from '../reference/judge.ts';
import { middlePlan } from '../reference/secondSolver/middlePlan.ts';
import { secondAnswer } from '../reference/secondSolver/secondAnswer.ts';
import { findSolver, notRunHere } from '../reference/secondSolver/solvers.ts';

const atOnce = 5;
const timeoutMs = 400_000;

/** Plans from a seed on: feasible alike, of equal value, and nothing for the judge to find. */
export function comparePlans(first: number, count: number): void {
  const solver = findSolver();
  const feasible = new Map<number, boolean>();

  describe(`on ${count} middle-sized plans from seed ${first} the program and a second solver`, () => {
    it.for(Array.from({ length: count / atOnce }, (_, index) => first + index * atOnce))(
      `agree: ${atOnce} plans from seed %i`,
      { timeout: timeoutMs },
      async (from, { skip }) => {
        if (solver === null) return skip(notRunHere);
        for (let seed = from; seed < from + atOnce; seed++) {
          const { plan, options } = middlePlan(seed);
          const least = secondAnswer(plan, options, solver);
          feasible.set(seed, least !== null);
          const result = await planBag(readPlan(JSON.stringify(plan)), options);
          const where = `seed ${seed}, least ${options.minimise}, loss of ${options.tolerance}`;
          const said = `${where}: says ${result.objective?.value}, ${solver.name} ${least}`;
          expect(result.status, said).toBe(least === null ? 'infeasible' : 'optimal');
          const off = Math.abs((result.objective?.value ?? 0) - (least ?? 0));
          expect(off, said).toBeLessThanOrEqual(1e-9 * (least ?? 0));
          // The judge writes out every stack and hold together, which only the plans with a loss are small enough for.
          if (options.tolerance !== 'nothing') expect(judge(plan, options, result), where).toEqual([]);
        }
      },
    );

    it('met plans with a bag and plans without', ({ skip }) => {
      if (solver === null) return skip(notRunHere);
      expect(feasible.size).toBe(count);
      expect(new Set(feasible.values())).toEqual(new Set([true, false]));
    });
  });
}
