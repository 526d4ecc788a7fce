import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { standardNormalCdf } from '../../../renderer/engine/chance/normal.ts';
import { triangularMoments, triangularQuantile } from '../../../renderer/engine/chance/triangular.ts';
import { finishingChance, samplesUsual, seedUsual } from '../../../renderer/engine/outing/finishing.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import type { PlanStep } from '../../../shared-types/plan.ts';
import { coursePlan, step } from './coursePlan.ts';

const usual = { seed: seedUsual, samples: samplesUsual };

function chanceOf(steps: PlanStep[], outing: Record<string, unknown>, x = usual) {
  const plan = planFrom(coursePlan({ steps, outing }));
  const [first] = plan.outings;
  if (first === undefined) throw new Error('no outing');
  return finishingChance(plan, first, x);
}

const triangle = (least: number, likely: number, most: number) => ({ least, likely, most });

/** Triangular distribution function, written down apart from the engine's inverse of it. */
function below({ least: a, likely: m, most: b }: ReturnType<typeof triangle>, t: number): number {
  if (t <= a) return 0;
  if (t >= b) return 1;
  return t < m ? (t - a) ** 2 / ((b - a) * (m - a)) : 1 - (b - t) ** 2 / ((b - a) * (b - m));
}

/** Five standard deviations of a share drawn so often: one run in two million is farther off. */
const within = (share: number) => 5 * Math.sqrt((share * (1 - share)) / samplesUsual) + 1e-9;

describe('a triangular step time', () => {
  it('is the inverse of its distribution function, within its ends', () => {
    const points = fc
      .tuple(
        fc.double({ min: 0, max: 500, noNaN: true }),
        fc.double({ min: 0, max: 100, noNaN: true }),
        fc.double({ min: 0, max: 100, noNaN: true }),
      )
      .filter(([, x, y]) => x + y > 1e-3);
    fc.assert(
      fc.property(points, fc.double({ min: 0, max: 1, noNaN: true }), ([a, x, y], share) => {
        const t = triangle(a, a + x, a + x + y);
        const value = triangularQuantile(t, share);
        expect(value).toBeGreaterThanOrEqual(t.least - 1e-9);
        expect(value).toBeLessThanOrEqual(t.most + 1e-9);
        expect(below(t, value)).toBeCloseTo(share, 5);
      }),
      { seed: 3, numRuns: 500 },
    );
  });

  it('has the mean and the variance of its three points', () => {
    expect(triangularMoments(triangle(0, 0, 6))).toEqual({ mean: 2, variance: 2 });
    const { mean, variance } = triangularMoments(triangle(1, 3, 8));
    expect(mean).toBeCloseTo(4, 12);
    // (a² + m² + b² − am − ab − mb)/18 by hand: (1 + 9 + 64 − 3 − 8 − 24)/18
    expect(variance).toBeCloseTo(39 / 18, 12);
    expect(triangularQuantile(triangle(5, 5, 5), 0.3)).toBe(5);
  });

  it.each([
    [triangle(2, 1, 3), 0.5],
    [triangle(1, 4, 3), 0.5],
    [triangle(1, 2, Number.POSITIVE_INFINITY), 0.5],
    [triangle(1, 2, 3), 1.5],
    [triangle(1, 2, 3), Number.NaN],
  ])('%j at %d is refused', (points, share) => {
    expect(() => triangularQuantile(points, share)).toThrow(/must/);
  });
});

describe('the chance of finishing', () => {
  it.each([12, 17, 20, 24, 29])('is that of the one step exactly, at a limit of %d min', (minutesMax) => {
    const spread = triangle(10, 18, 30);
    const exact = below(spread, minutesMax);
    const found = chanceOf([step('a', 'Lead', { spread })], { minutesMax });
    expect(Math.abs((found?.finish.probability ?? 0) - exact)).toBeLessThan(within(exact));
    expect(found?.home).toBeNull();
  });

  it('is that of two even steps by convolution, each rising from its least', () => {
    // Of density 2t on [0, 1] each (likely = most): P(X + Y ≤ s) = s⁴/6 for s ≤ 1.
    const spread = triangle(0, 1, 1);
    const steps = [step('a', 'Lead', { spread }), step('b', 'Second', { spread })];
    for (const s of [0.6, 0.8, 1]) {
      const exact = s ** 4 / 6;
      const found = chanceOf(steps, { minutesMax: s })?.finish.probability ?? 0;
      expect(Math.abs(found - exact), `${s}`).toBeLessThan(within(exact));
    }
  });

  it('is that of the longer of two in a slot: both must end in time', () => {
    const one = triangle(10, 15, 25);
    const other = triangle(5, 20, 22);
    const steps = [step('a', 'Lead', { spread: one, slot: 'x' }), step('b', 'Second', { spread: other, slot: 'x' })];
    const exact = below(one, 18) * below(other, 18);
    const found = chanceOf(steps, { minutesMax: 18 })?.finish.probability ?? 0;
    expect(Math.abs(found - exact)).toBeLessThan(within(exact));
  });

  it('is that of a sum where one role does both in a slot', () => {
    const spread = triangle(0, 1, 1);
    const steps = [
      step('a', 'Lead', { spread, slot: 'x' }),
      step('b', 'Lead', { spread, slot: 'x' }),
      step('c', 'Second', { minutes: 0, slot: 'x' }),
    ];
    const found = chanceOf(steps, { minutesMax: 0.8 })?.finish.probability ?? 0;
    expect(Math.abs(found - 0.8 ** 4 / 6)).toBeLessThan(within(0.8 ** 4 / 6));
  });

  it('is nearly normal for forty steps', () => {
    const steps = Array.from({ length: 40 }, (_, index) => step(`s${index}`, 'Lead', { spread: triangle(4, 6, 9) }));
    const { mean, variance } = triangularMoments(triangle(4, 6, 9));
    const deviation = Math.sqrt(40 * variance);
    for (const z of [-1, 0, 1.5]) {
      const found = chanceOf(steps, { minutesMax: 40 * mean + z * deviation });
      expect(Math.abs((found?.finish.probability ?? 0) - standardNormalCdf(z)), `${z}`).toBeLessThan(0.015);
      expect(found?.minutes.mean).toBeCloseTo(40 * mean, 0);
    }
  });

  it('counts the way home apart, and steps without a spread as they stand', () => {
    const spread = triangle(10, 18, 30);
    const steps = [
      step('a', 'Lead', { spread }),
      step('b', 'Lead', { minutes: 7 }),
      step('c', 'Lead', { minutes: 90, spread: triangle(60, 90, 99), contingency: true }),
    ];
    const found = chanceOf(steps, { minutesMax: 33, turnBack: 8 });
    expect(Math.abs((found?.finish.probability ?? 0) - below(spread, 26))).toBeLessThan(within(0.9));
    expect(Math.abs((found?.home?.probability ?? 0) - below(spread, 18))).toBeLessThan(within(0.4));
    expect(found?.assumptions.join(' ')).toMatch(/exact: b\..*do not come up: c\./);
  });

  it('is the same for the same seed, and near it for another', () => {
    const steps = [step('a', 'Lead', { spread: triangle(10, 18, 30) })];
    const [one, again, other] = [1, 1, 2].map((seed) => chanceOf(steps, { minutesMax: 20 }, { ...usual, seed }));
    expect(one).toEqual(again);
    expect(one?.finish.probability).not.toBe(other?.finish.probability);
    expect(one?.finish.interval.low).toBeLessThan(other?.finish.interval.high ?? 0);
    expect(other?.finish.interval.low).toBeLessThan(one?.finish.interval.high ?? 0);
  });

  it('is none without a limit, or without a spread in the outing’s own course', () => {
    const spread = triangle(1, 2, 3);
    expect(chanceOf([step('a', 'Lead', { spread })], {})).toBeNull();
    expect(chanceOf([step('a', 'Lead', { minutes: 5 })], { minutesMax: 9 })).toBeNull();
    expect(chanceOf([step('a', 'Lead', { spread, contingency: true })], { minutesMax: 9 })).toBeNull();
  });

  it('is certain at the greatest sum, and its interval holds the exact share for nine seeds of ten and more', () => {
    const spread = triangle(10, 18, 30);
    const steps = [step('a', 'Lead', { spread })];
    expect(chanceOf(steps, { minutesMax: 30 })?.finish.probability).toBe(1);
    const exact = below(spread, 20);
    const held = Array.from({ length: 200 }, (_, seed) => {
      const interval = chanceOf(steps, { minutesMax: 20 }, { seed: seed + 1, samples: 1000 })?.finish.interval;
      return interval !== undefined && interval.low <= exact && exact <= interval.high;
    });
    expect(held.filter(Boolean).length).toBeGreaterThanOrEqual(180);
  });
});
