/** A share of the comparison with the exhaustive search, as one test file runs it; several files keep every core at work. */
import { beforeAll, describe, expect, it } from 'vitest';
import { planBag } from '../../renderer/engine/bag/planBag.ts';
import { readPlan } from '../../renderer/engine/plan/readPlan.ts';
import type { BagResult, Tolerance } from '../../shared-types/bag.ts';
import { breakNames, breaks } from '../reference/breaks.ts';
import type { BreakName } from '../reference/breaks.ts';
import { leastBag } from '../reference/exhaustive.ts';
import type { LeastBag } from '../reference/exhaustive.ts';
import { judge } from '../reference/judge.ts';
import { randomPlan } from '../reference/randomPlan.ts';
import type { GeneratedPlan } from '../reference/randomPlan.ts';
import { withProfiles } from '../reference/randomProfile.ts';

const campaignTimeoutMs = 400_000;

interface Answered extends GeneratedPlan {
  result: BagResult;
}

/** Small plans are solved with all flows written down; every second one here as large ones are, told by cuts. */
const ask = ({ seed, plan, options }: GeneratedPlan): Promise<BagResult> =>
  planBag(readPlan(JSON.stringify(plan)), { ...options, flowsMost: seed % 2 === 0 ? -1 : undefined });

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
  difference(one, leastBag(one.plan, one.options, broken)) !== null ||
  judge(one.plan, one.options, one.result, broken).length > 0;

/** How many of its plans a share answers again. */
const again = 100;

/** One of so many equal shares of the plans and of the breaks. */
export function comparePlans({ share, shares, planCount }: { share: number; shares: number; planCount: number }): void {
  const first = share * planCount + 1;
  const answered: Answered[] = [];

  beforeAll(async () => {
    for (let seed = first; seed < first + planCount; seed++) {
      const generated = withProfiles(randomPlan(seed));
      answered.push({ ...generated, result: await ask(generated) });
    }
  }, campaignTimeoutMs);

  describe(`on ${planCount} random plans from seed ${first} the program`, () => {
    it(
      'finds the least bag, or that there is none, as the exhaustive search does',
      { timeout: campaignTimeoutMs },
      () => {
        const differing = answered.flatMap((one) => {
          const { minimise, tolerance } = one.options;
          const differs = difference(one, leastBag(one.plan, one.options));
          return differs === null ? [] : [`seed ${one.seed}, least ${minimise}, loss of ${tolerance}: ${differs}`];
        });
        expect(differing).toEqual([]);
      },
    );

    it.each<[Tolerance, number]>([
      ['nothing', 0.5],
      ['piece', 0.4],
      ['bag', 0.3],
    ])('met plans with a bag and plans without, where the loss of %s is stood', (tolerance, least) => {
      const asked = answered.filter(({ options }) => options.tolerance === tolerance);
      const feasible = asked.filter(({ result }) => result.status === 'optimal').length;
      expect(feasible / asked.length).toBeGreaterThan(least);
      expect(feasible / asked.length).toBeLessThan(0.8);
    });

    it('gives answers in which an independent judge finds nothing', { timeout: campaignTimeoutMs }, () => {
      const accused = answered.flatMap(({ seed, plan, options, result }) =>
        judge(plan, options, result).map(({ rule, where, says }) => `seed ${seed}: ${rule}, ${where}: ${says}`),
      );
      expect(accused).toEqual([]);
    });

    it(
      'gives the same bytes for the same plan, whatever it answered before',
      { timeout: campaignTimeoutMs },
      async () => {
        const changed: string[] = [];
        for (const one of answered.slice(-again).toReversed()) {
          if (JSON.stringify(await ask(one)) !== JSON.stringify(one.result)) changed.push(`seed ${one.seed}`);
        }
        expect(changed).toEqual([]);
      },
    );
  });

  /** A plan of another share that tells the break apart, where none of these does. */
  const elsewhere = async (broken: BreakName): Promise<number | null> => {
    for (let n = 0; n < (shares - 1) * planCount; n++) {
      const generated = withProfiles(randomPlan(((first - 1 + planCount + n) % (shares * planCount)) + 1));
      if (wouldNotice({ ...generated, result: await ask(generated) }, broken)) return generated.seed;
    }
    return null;
  };

  describe('the comparison would notice a break of', () => {
    const own = breakNames.filter((_, index) => index % shares === share);
    it.each(own.map((name) => [breaks[name], name] as const))(
      '%s',
      { timeout: campaignTimeoutMs },
      async (_, broken) => {
        expect(answered.length).toBe(planCount);
        const noticed = answered.find((one) => wouldNotice(one, broken))?.seed ?? (await elsewhere(broken));
        expect(noticed, `no plan of ${shares * planCount} tells "${broken}" apart`).not.toBeNull();
      },
    );
  });
}
