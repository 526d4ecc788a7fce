import { describe, expect, it } from 'vitest';
import { drawsOf } from '../../../renderer/engine/chance/draws.ts';
import { standardNormalCdf, standardNormalQuantile } from '../../../renderer/engine/chance/normal.ts';
import { wilsonInterval } from '../../../renderer/engine/chance/wilson.ts';
import { RefusedError } from '../../../renderer/engine/errors.ts';

const refused = (run: () => unknown) => {
  try {
    run();
  } catch (error) {
    return error instanceof RefusedError ? error.refusal.code : 'another error';
  }
  return 'nothing';
};

describe('the standard normal distribution', () => {
  it('is symmetric, rises, and goes on smoothly where series and fraction meet', () => {
    let before = 0;
    for (let z = -38; z <= 38; z += 0.01) {
      const share = standardNormalCdf(z);
      expect(share).toBeGreaterThanOrEqual(before);
      expect(share + standardNormalCdf(-z)).toBeCloseTo(1, 14);
      before = share;
    }
    // At −2 the density is 0.0539910 and the share 0.0227501: a step of 1e-9 is worth 2.3732e-9 of it.
    const step = 1 - standardNormalCdf(-2 - 1e-9) / standardNormalCdf(-2 + 1e-9);
    expect(step / 2).toBeCloseTo(2.3732e-9, 12);
  });

  it('is undone by its quantile', () => {
    for (const p of [1e-12, 1e-6, 0.001, 0.025, 0.3, 0.499, 0.5, 0.501, 0.504, 0.52, 0.7, 0.975, 0.999_999])
      expect(standardNormalCdf(standardNormalQuantile(p)) / p).toBeCloseTo(1, 10);
  });

  it('refuses NaN and shares that are none', () => {
    expect(refused(() => standardNormalCdf(Number.NaN))).toBe('not-finite');
    for (const p of [0, 1, -0.1, 1.1, Number.NaN])
      expect(refused(() => standardNormalQuantile(p))).toBe('out-of-range');
  });
});

describe('the interval of a share', () => {
  it('covers the true share about as often as it says', () => {
    const draws = drawsOf(11);
    let covered = 0;
    for (let run = 0; run < 2000; run += 1) {
      let hits = 0;
      for (let n = 0; n < 200; n += 1) if (draws.uniform() < 0.9) hits += 1;
      const { low, high } = wilsonInterval({ hits, trials: 200, confidence: 0.95 });
      if (low <= 0.9 && high >= 0.9) covered += 1;
    }
    expect(covered / 2000).toBeGreaterThan(0.93);
    expect(covered / 2000).toBeLessThan(0.97);
  });

  it('is wide for a single trial, and refuses none', () => {
    // n = 1, all hits: (1 + z²/2 ± z²/2)/(1 + z²), so that it runs from 1/(1 + z²) to 1; z = 1.959964.
    const single = wilsonInterval({ hits: 1, trials: 1, confidence: 0.95 });
    expect(single.low).toBeCloseTo(1 / (1 + 1.959964 ** 2), 6);
    expect(single.high).toBeCloseTo(1, 12);
    expect(refused(() => wilsonInterval({ hits: 0, trials: 0, confidence: 0.95 }))).toBe('out-of-range');
  });

  it('stays between 0 and 1 and is never empty', () => {
    expect(wilsonInterval({ hits: 0, trials: 10, confidence: 0.95 })).toEqual({
      low: 0,
      high: expect.closeTo(0.2775, 4) as number,
    });
    expect(wilsonInterval({ hits: 10, trials: 10, confidence: 0.95 }).high).toBe(1);
  });

  it.each([
    [11, 10],
    [-1, 10],
    [0, 0],
    [0.5, 10],
  ])('refuses %d of %d trials', (hits, trials) => {
    expect(refused(() => wilsonInterval({ hits, trials, confidence: 0.95 }))).toBe('out-of-range');
  });
});

describe('draws', () => {
  it('are the same for the same seed and others for another', () => {
    const ten = (seed: number) => Array.from({ length: 10 }, drawsOf(seed).uniform);
    expect(ten(7)).toEqual(ten(7));
    expect(ten(7)).not.toEqual(ten(8));
  });

  it('have the moments of their distributions', () => {
    const { uniform, normal } = drawsOf(3);
    const count = 200_000;
    const mean = (draw: () => number, power: number) => {
      let sum = 0;
      for (let n = 0; n < count; n += 1) sum += draw() ** power;
      return sum / count;
    };
    expect(mean(uniform, 1)).toBeCloseTo(1 / 2, 2);
    expect(mean(uniform, 2)).toBeCloseTo(1 / 3, 2);
    expect(Math.abs(mean(normal, 1))).toBeLessThan(0.01);
    expect(Math.abs(mean(normal, 2) - 1)).toBeLessThan(0.015);
    expect(Math.abs(mean(normal, 4) - 3)).toBeLessThan(0.1);
  });
});
