/**
 * How often the forecast of wear holds, on series simulated by laws that it does not fit. It says 95 %; `npx tsx tests/bench/wear.ts`
 * prints the figures of every law for as many series as wanted.
 */
import { describe, expect, it } from 'vitest';
import { passingCycle } from '../../renderer/engine/asrun/passingCycle.ts';
import { nextBreakaway } from '../../renderer/engine/asrun/nextBreakaway.ts';
import { coverageOf, decayLaws, straightCoverageOf, type Coverage, type DecayLaw } from './wearSeries.ts';

const seed = 1;
const each = 250;
const laws = Object.keys(decayLaws) as DecayLaw[];
const found = new Map(laws.map((law, index) => [law, coverageOf(law, each, seed + index)]));
const of = (law: DecayLaw): Coverage => found.get(law) as Coverage;
const stated = ({ between, notBefore }: Coverage): number => between + notBefore;
const held = ({ betweenHold, notBeforeHold }: Coverage): number => betweenHold + notBeforeHold;

/** The two the forecast is promised for; neither is among its fits. */
const promised = ['exponential towards a floor', 'power of the cycle'] as const;

describe('500 series of two laws that the forecast does not fit', () => {
  const both = promised.map(of);
  const total = both.reduce((sum, coverage) => sum + stated(coverage), 0);

  it('are 500, and the forecast says something of more than half of them', () => {
    expect(both.reduce((sum, { series }) => sum + series, 0)).toBe(500);
    expect(total).toBeGreaterThan(250);
    expect(both.reduce((sum, { cannotKnow }) => sum + cannotKnow, 0)).toBe(500 - total);
  });

  it('are held within 5 points of the 95 % that the interval says', () => {
    const share = both.reduce((sum, coverage) => sum + held(coverage), 0) / total;
    expect(Math.abs(share - 0.95)).toBeLessThanOrEqual(0.05 + 1e-12);
  });
});

it.each(laws)('%s: what is stated holds in at least 90 %', (law) => {
  expect(stated(of(law))).toBeGreaterThan(0.4 * each);
  expect(held(of(law)) / stated(of(law))).toBeGreaterThanOrEqual(0.9);
});

it.each(laws)('%s: the interval of the next reading holds in 90 to 100 % where the line is called straight', (law) => {
  const { nextStated, nextHold } = of(law);
  expect(nextStated).toBeGreaterThan(60);
  expect(nextHold / nextStated).toBeGreaterThanOrEqual(0.9);
});

it.each(promised)(
  '%s: an interval from a straight line alone would hold in less than half: this is why parabolas are asked',
  (law) => {
    const { stated: both, hold } = straightCoverageOf(law, each, seed);
    expect(both).toBeGreaterThan(60);
    expect(hold / both).toBeLessThan(0.5);
  },
);

describe('on readings without scatter', () => {
  const readings = (count: number, curve: (cycle: number) => number) =>
    Array.from({ length: count }, (_, index) => ({ cycle: index + 1, breakawayNm: curve(index + 1) }));

  it('an exponential fall is bracketed, and its likeliest cycle is the true one', () => {
    // 2·0.9^(x − 1) is under 0.5 from x − 1 > ln 0.25/ln 0.9 = 13.16: cycle 15.
    const falling = readings(12, (cycle) => 2 * 0.9 ** (cycle - 1));
    const said = passingCycle(falling, () => 0.5);
    expect(said).toMatchObject({ status: 'between', likeliestCycle: 15 });
    expect(said.fromCycle).toBeGreaterThan(13);
    expect(said.fromCycle).toBeLessThanOrEqual(15);
    expect(said.toCycle).toBeGreaterThanOrEqual(15);
    expect(said.toCycle).toBeLessThan(20);
  });

  it('a torque that stays is not said to pass', () => {
    const said = passingCycle(
      readings(10, () => 2),
      () => 1.2,
    );
    expect(said).toMatchObject({ status: 'not-before', toCycle: null, likeliestCycle: null });
    expect(said.fromCycle).toBeGreaterThan(12);
  });

  it.each([
    [[2, 1.9, 1.8], 1, 'cannot-know', '3 of at least 4 cycles'],
    [[2, 1.9, 0.9, 1.5], 1, 'under-already', 'cycle 3'],
    [[2, 1.9, 1.8, 0], null, 'cannot-know', 'no minimum'],
    [[2, 1.9, 1.8, 0], 0, 'cannot-know', 'a reading is 0'],
  ] as const)('%j over a minimum of %s: %s', (torques, minimumNm, status, why) => {
    const said = passingCycle(
      readings(torques.length, (cycle) => torques[cycle - 1] ?? 0),
      () => minimumNm,
    );
    expect(said.status).toBe(status);
    expect(said.why).toContain(why);
  });

  it('a minimum that changes with the cycle is asked at each', () => {
    const falling = readings(8, (cycle) => 2 * 0.97 ** (cycle - 1));
    const always = passingCycle(falling, () => 1.5);
    const later = passingCycle(falling, (cycle) => (cycle <= 12 ? 0.1 : 1.5));
    expect(always.likeliestCycle).toBe(11);
    expect(later.likeliestCycle).toBe(13);
  });

  it('says the same next torque as the line', () => {
    expect(nextBreakaway(readings(5, (cycle) => 2 - 0.1 * cycle))?.torqueNm).toBeCloseTo(1.4, 12);
  });
});
