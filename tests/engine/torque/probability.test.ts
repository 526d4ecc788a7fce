import { erf } from 'mathjs';
import { describe, expect, it } from 'vitest';
import { probabilityOfConformity } from '../../../renderer/engine/torque/toolError.ts';
import {
  likeliestSetting,
  type NutFactorSpread,
  type PreloadTask,
} from '../../../renderer/engine/torque/preloadChance.ts';
import type { TorqueScale } from '../../../renderer/engine/torque/scale.ts';

const phi = (z: number): number => (1 + erf(z / Math.SQRT2)) / 2;
const band = (minNm: number, maxNm: number) => ({ minNm, maxNm });

describe('the probability that the applied torque lies in the aim', () => {
  it.each([
    ['inside', 24, 26, 20, 30, 1],
    ['three quarters', 24, 26, 24.5, 30, 0.75],
    ['half, at one end', 24, 26, 25, 30, 0.5],
    ['the middle half', 20, 30, 22.5, 27.5, 0.5],
    ['outside', 24, 26, 27, 30, 0],
    ['touching', 24, 26, 26, 30, 0],
  ])('uniform: %s', (_what, from, to, low, high, share) => {
    const applied = band(from, to);
    expect(probabilityOfConformity({ applied, aim: band(low, high), error: { form: 'uniform' } })).toBeCloseTo(
      share,
      12,
    );
  });

  it('normal: the stated coverage where the aim is the permissible band itself', () => {
    for (const coverage of [0.5, 0.6827, 0.95, 0.9973, 0.999_999]) {
      const error = { form: 'normal', coverage } as const;
      expect(probabilityOfConformity({ applied: band(24, 26), aim: band(24, 26), error })).toBeCloseTo(coverage, 12);
      const half = probabilityOfConformity({ applied: band(24, 26), aim: band(25, 26), error });
      expect(half).toBeCloseTo(coverage / 2, 12);
    }
  });

  it('normal: agrees with an error function computed elsewhere, far out too', () => {
    // 68.27 % within ± 1: the half width is one standard deviation, to four digits.
    const error = { form: 'normal', coverage: 0.682_689_492_137_085_9 } as const;
    for (let low = -6; low <= 6; low += 0.5) {
      const got = probabilityOfConformity({ applied: band(99, 101), aim: band(100 + low, 100 + low + 1.5), error });
      expect(Math.abs(got - (phi(low + 1.5) - phi(low)))).toBeLessThan(1e-12);
    }
    const tail = probabilityOfConformity({ applied: band(99, 101), aim: band(110, 111), error });
    expect(tail / 7.619_85e-24).toBeCloseTo(1, 4);
  });

  it('exact, or without any deviation: yes or no, ends included', () => {
    expect(probabilityOfConformity({ applied: band(24, 26), aim: band(25, 30), error: { form: 'exact' } })).toBe(1);
    expect(probabilityOfConformity({ applied: band(24, 26), aim: band(25.1, 30), error: { form: 'exact' } })).toBe(0);
    expect(probabilityOfConformity({ applied: band(25, 25), aim: band(25, 30), error: { form: 'uniform' } })).toBe(1);
  });
});

const scale: TorqueScale = {
  minNm: 5,
  maxNm: 60,
  increment: { value: 0.5, unit: 'N·m', nm: 0.5 },
  settings: null,
  accuracyOfReading: 0.04,
};
const task = (nutFactor: NutFactorSpread, more: Partial<PreloadTask> = {}): PreloadTask => ({
  scale,
  rangeShareMin: 0,
  correction: 1,
  error: { form: 'exact' },
  nutFactor,
  diameterMm: 10,
  preloadN: { min: 15_000, max: 25_000 },
  running: null,
  seed: 5,
  samples: 100_000,
  ...more,
});
const settings = Array.from({ length: 111 }, (_, n) => 5 + n / 2);

/** With an exact tool, F = S/(K·D) lies in the limits where K lies between S/(Fmax·D) and S/(Fmin·D). */
function closedForm(spread: NutFactorSpread, nm: number): number {
  const [low, high] = [(nm * 1000) / 250_000, (nm * 1000) / 150_000];
  if (spread.form === 'uniform')
    return Math.max(0, Math.min(high, spread.max) - Math.max(low, spread.min)) / (spread.max - spread.min);
  if (spread.form === 'exact') return spread.value >= low && spread.value <= high ? 1 : 0;
  if (spread.form === 'normal') {
    const z = (k: number) => (k - spread.mean) / spread.standardDeviation;
    return phi(z(high)) - phi(z(low));
  }
  const variance = Math.log(1 + (spread.standardDeviation / spread.mean) ** 2);
  const z = (k: number) => (Math.log(k) - Math.log(spread.mean) + variance / 2) / Math.sqrt(variance);
  return phi(z(high)) - phi(z(low));
}

describe('the setting most likely to give a preload within its limits', () => {
  const spreads: NutFactorSpread[] = [
    { form: 'normal', mean: 0.2, standardDeviation: 0.03 },
    { form: 'lognormal', mean: 0.2, standardDeviation: 0.03 },
    { form: 'lognormal', mean: 0.15, standardDeviation: 0.05 },
    { form: 'uniform', min: 0.12, max: 0.28 },
  ];

  it.each(spreads)('is that of the closed form with an exact tool: $form', (spread) => {
    const { best } = likeliestSetting(task(spread));
    if (best === null) throw new Error('there is none');
    const most = Math.max(...settings.map((nm) => closedForm(spread, nm)));
    const true_ = closedForm(spread, best.setting.value);
    // Neighbours differ by less than the draws can tell: the choice may cost no more than four of their deviations.
    const deviation = Math.sqrt((most * (1 - most)) / 100_000);
    expect(most - true_).toBeLessThan(4 * deviation);
    expect(Math.abs(best.probability - true_)).toBeLessThan(4 * deviation);
    expect(best.interval.low).toBeLessThan(best.probability);
    expect(best.interval.high).toBeGreaterThan(best.probability);
  });

  it('has an interval that holds the true probability about as often as it says', () => {
    const spread = spreads[1] ?? { form: 'exact', value: 0.2 };
    let held = 0;
    for (let seed = 1; seed <= 200; seed += 1) {
      const { best } = likeliestSetting(task(spread, { seed, samples: 2000 }));
      const truth = closedForm(spread, best?.setting.value ?? 0);
      if (best !== null && best.interval.low <= truth && best.interval.high >= truth) held += 1;
    }
    expect(held).toBeGreaterThanOrEqual(180);
  });

  it('may be the only mark, or the first', () => {
    const marks = (...nms: number[]): Partial<PreloadTask> => ({
      scale: { ...scale, increment: null, settings: nms.map((nm) => ({ value: nm, unit: 'N·m' as const, nm })) },
    });
    const exact: NutFactorSpread = { form: 'exact', value: 0.2 };
    expect(likeliestSetting(task(exact, { ...marks(40), samples: 1000 })).best?.setting.value).toBe(40);
    expect(likeliestSetting(task(exact, { ...marks(35, 55), samples: 1000 })).best?.setting.value).toBe(35);
    expect(likeliestSetting(task(exact, { ...marks(10, 45), samples: 1000 })).best?.setting.value).toBe(45);
  });

  it('is the lowest of those that serve where nothing is spread', () => {
    const exact = { form: 'exact', value: 0.2 } as const;
    const limits = { preloadN: { min: 9500, max: 10_500 } };
    // 0.2 · 10 mm · 9.5 to 10.5 kN: 19 to 21 N·m.
    expect(likeliestSetting(task(exact, limits)).best).toMatchObject({
      setting: { value: 19, unit: 'N·m' },
      probability: 1,
    });
    expect(likeliestSetting(task(exact, { ...limits, correction: 0.5 })).best?.setting.value).toBe(9.5);
    expect(likeliestSetting(task(exact, { ...limits, running: band(3, 3) })).best?.setting.value).toBe(22);
    expect(likeliestSetting(task(exact, { preloadN: { min: 1000, max: 1001 } })).best).toBeNull();
  });

  it('allows for the tool: a uniform error of reading as its convolution has it', () => {
    const exact = { form: 'exact', value: 0.2 } as const;
    const error = { form: 'uniform' } as const;
    const coarse = { ...scale, accuracyOfReading: 0.1 };
    // 20 N·m ± 2, limits 19 to 21: half of the band; no other setting has more of its own.
    const { best, also } = likeliestSetting(
      task(exact, { scale: coarse, error, preloadN: { min: 9500, max: 10_500 } }),
      [20, 25],
    );
    expect(also[0]?.low).toBeLessThan(0.5);
    expect(also[0]?.high).toBeGreaterThan(0.5);
    expect(also[1]?.high).toBeLessThan(0.001);
    // Below 20 N·m the band is narrower and still covers the limits: 19.1 ± 1.91 reaches 21, so 19.5 has 2 of 3.9.
    expect(best?.setting.value).toBeLessThan(20);
    expect(best?.probability).toBeGreaterThan(0.5);
    const fullScale = { ...scale, accuracyOfReading: 0, accuracyOfFullScale: 0.05 };
    const wide = likeliestSetting(task(exact, { scale: fullScale, error, preloadN: { min: 9500, max: 10_500 } }), [20]);
    // 20 ± 3 N·m: 2 of 6.
    expect(Math.abs(((wide.also[0]?.low ?? 0) + (wide.also[0]?.high ?? 0)) / 2 - 1 / 3)).toBeLessThan(0.01);
  });

  it('is the same for the same seed', () => {
    const spread = { form: 'lognormal', mean: 0.2, standardDeviation: 0.03 } as const;
    expect(likeliestSetting(task(spread))).toEqual(likeliestSetting(task(spread)));
    expect(likeliestSetting(task(spread)).best?.probability).not.toBe(
      likeliestSetting(task(spread, { seed: 6 })).best?.probability,
    );
  });

  it('refuses a scale with more marks than are looked at', () => {
    const fine = { ...scale, increment: { value: 1e-6, unit: 'N·m' as const, nm: 1e-6 } };
    expect(() => likeliestSetting(task({ form: 'exact', value: 0.2 }, { scale: fine }))).toThrow(/marks in its range/);
  });
});
