/**
 * The least bag of small plans against answers made by hand, one rule at a time, and against the exhaustive search on a
 * few random plans: the quick part of what tests/validation/leastBag.test.ts does at length.
 */
import { describe, expect, it } from 'vitest';
import { planBag } from '../../../renderer/engine/bag/planBag.ts';
import { readPlan } from '../../../renderer/engine/plan/readPlan.ts';
import type { BagResult, Minimised } from '../../../shared-types/bag.ts';
import type { Plan } from '../../../shared-types/plan.ts';
import { bagCases } from '../../reference/bagCases.ts';
import { leastBag } from '../../reference/exhaustive.ts';
import { judge } from '../../reference/judge.ts';
import { randomPlan } from '../../reference/randomPlan.ts';
import { stackCases } from '../../reference/stackCases.ts';

const solve = (plan: Plan, minimise: Minimised = 'mass'): Promise<BagResult> =>
  planBag(readPlan(JSON.stringify(plan)), { minimise });

describe('the least bag is the one found by hand', () => {
  it.each([...stackCases, ...bagCases])('$says', async ({ plan, kg }) => {
    const result = await solve(plan);
    expect(result.status).toBe(kg === null ? 'infeasible' : 'optimal');
    if (kg === null) expect(result.objective).toBeNull();
    else expect(result.objective?.value).toBeCloseTo(kg, 12);
    expect(judge(plan, 'mass', result)).toEqual([]);
  });
});

describe('the least bag of a random plan is the one an exhaustive search finds', () => {
  it.each(Array.from({ length: 24 }, (_, index) => index + 1007))('seed %d', async (seed) => {
    const { plan, minimise } = randomPlan(seed);
    const result = await solve(plan, minimise);
    const least = leastBag(plan, minimise);
    expect(result.status === 'optimal').toBe(least.feasible);
    if (least.value !== null) expect(result.objective?.value).toBeCloseTo(least.value, 9);
    expect(judge(plan, minimise, result)).toEqual([]);
  });
});
