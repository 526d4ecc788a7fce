/**
 * The bag of the program against an exhaustive search that shares no code with it, on 500 random plans of at most 12
 * pieces; and proof that this comparison would notice a break of each rule. A failure names the seed:
 * `randomPlan(seed)` of `tests/reference` gives the plan again.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { planBag } from '../../renderer/engine/bag/planBag.ts';
import { readPlan } from '../../renderer/engine/plan/readPlan.ts';
import type { BagResult } from '../../shared-types/bag.ts';
import { breakNames, breaks } from '../reference/breaks.ts';
import type { BreakName } from '../reference/breaks.ts';
import { leastBag } from '../reference/exhaustive.ts';
import type { LeastBag } from '../reference/exhaustive.ts';
import { judge } from '../reference/judge.ts';
import { randomPlan } from '../reference/randomPlan.ts';
import type { GeneratedPlan } from '../reference/randomPlan.ts';

const planCount = 500;
const campaignTimeoutMs = 400_000;

interface Answered extends GeneratedPlan {
  result: BagResult;
}

const answered: Answered[] = [];

const ask = ({ plan, minimise }: GeneratedPlan): Promise<BagResult> =>
  planBag(readPlan(JSON.stringify(plan)), { minimise });

/** What sets an answer apart from the exhaustive search; null where they are one. */
function difference({ result }: Answered, least: LeastBag): string | null {
  const value = result.objective?.value ?? null;
  const feasible = result.status === 'optimal';
  if (feasible !== least.feasible)
    return `says ${result.status}, the search says ${least.feasible ? 'feasible' : 'infeasible'}`;
  if (value === null || least.value === null)
    return value === least.value ? null : `says ${value}, the search ${least.value}`;
  return Math.abs(value - least.value) <= 1e-9 * Math.abs(least.value)
    ? null
    : `says ${value}, the search ${least.value}`;
}

/** Whether a reference with one rule broken would have disagreed with this answer. */
const wouldNotice = (one: Answered, broken: BreakName): boolean =>
  difference(one, leastBag(one.plan, one.minimise, broken)) !== null ||
  judge(one.plan, one.minimise, one.result, broken).length > 0;

beforeAll(async () => {
  for (let seed = 1; seed <= planCount; seed++) {
    const generated = randomPlan(seed);
    answered.push({ ...generated, result: await ask(generated) });
  }
}, campaignTimeoutMs);

describe(`on ${planCount} random plans the program`, () => {
  it(
    'finds the least bag, or that there is none, as the exhaustive search does',
    { timeout: campaignTimeoutMs },
    () => {
      const differing = answered.flatMap((one) => {
        const differs = difference(one, leastBag(one.plan, one.minimise));
        return differs === null ? [] : [`seed ${one.seed}, least ${one.minimise}: ${differs}`];
      });
      expect(differing).toEqual([]);
      const feasible = answered.filter(({ result }) => result.status === 'optimal').length;
      expect(feasible / planCount).toBeGreaterThan(0.55);
      expect(feasible / planCount).toBeLessThan(0.8);
    },
  );

  it('gives answers in which an independent judge finds nothing', { timeout: campaignTimeoutMs }, () => {
    const accused = answered.flatMap(({ seed, plan, minimise, result }) =>
      judge(plan, minimise, result).map(({ rule, where, says }) => `seed ${seed}: ${rule}, ${where}: ${says}`),
    );
    expect(accused).toEqual([]);
  });

  it(
    'gives the same bytes for the same plan, whatever it answered before',
    { timeout: campaignTimeoutMs },
    async () => {
      const changed: string[] = [];
      for (const one of answered.toReversed()) {
        if (JSON.stringify(await ask(one)) !== JSON.stringify(one.result)) changed.push(`seed ${one.seed}`);
      }
      expect(changed).toEqual([]);
    },
  );
});

describe('the comparison would notice a break of', () => {
  it.each(breakNames.map((name) => [breaks[name], name] as const))(
    '%s',
    { timeout: campaignTimeoutMs },
    (_, broken) => {
      expect(answered.length).toBe(planCount);
      const noticed = answered.find((one) => wouldNotice(one, broken));
      expect(noticed?.seed, `no plan of ${planCount} tells "${broken}" apart`).toBeDefined();
    },
  );
});
