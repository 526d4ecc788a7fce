/**
 * Did it change? The seeded simulation of the likeliest setting, digit for digit: whether it is right is asked in
 * tests/engine/torque/probability.test.ts, against closed forms.
 */
import { describe, expect, it } from 'vitest';
import type { NutFactorSpread, PreloadTask } from '../../renderer/engine/torque/preloadChance.ts';
import { likeliestSetting } from '../../renderer/engine/torque/preloadChance.ts';
import type { TorqueScale } from '../../renderer/engine/torque/scale.ts';

const scale: TorqueScale = {
  minNm: 5,
  maxNm: 60,
  increment: { value: 0.5, unit: 'N·m', nm: 0.5 },
  settings: null,
  accuracyOfReading: 0.04,
};

const nutFactors: Record<string, NutFactorSpread> = {
  exact: { form: 'exact', value: 0.2 },
  uniform: { form: 'uniform', min: 0.12, max: 0.28 },
  normal: { form: 'normal', mean: 0.2, standardDeviation: 0.03 },
  lognormal: { form: 'lognormal', mean: 0.2, standardDeviation: 0.03 },
};

const tools: Partial<PreloadTask>[] = [
  { error: { form: 'exact' }, running: null },
  { error: { form: 'uniform' }, running: { minNm: 1, maxNm: 3 } },
  {
    error: { form: 'normal', coverage: 0.95 },
    running: { minNm: 2, maxNm: 2 },
    correction: 0.8,
    scale: { ...scale, accuracyOfReading: 0, accuracyOfFullScale: 0.03 },
  },
];

/** Nut factor, tool, best setting, its probability and the lower end of its interval, both ends of the interval at 40 N·m. */
const kept: [string, number, number, number, number, number, number][] = [
  ['exact', 0, 30, 1, 0.9980829527187468, 0.9980829527187468, 0.9999999999999998],
  ['exact', 1, 34.5, 1, 0.9980829527187468, 0.9980829527187468, 0.9999999999999998],
  ['exact', 2, 29, 1, 0.9980829527187468, 0.940644363302617, 0.9596264600496927],
  ['uniform', 0, 42, 0.687, 0.6663350327129758, 0.6252860078602284, 0.6671522972863644],
  ['uniform', 1, 43.5, 0.6785, 0.6577054850262555, 0.6136606243419257, 0.655821772892136],
  ['uniform', 2, 35.5, 0.6775, 0.6566907564469646, 0.5421649933964967, 0.5855896245515028],
  ['normal', 0, 38.5, 0.9145, 0.9014365264814974, 0.8903038697549172, 0.9161471560418304],
  ['normal', 1, 41, 0.8955, 0.8813264561190907, 0.8792182266916742, 0.9062730570979797],
  ['normal', 2, 32.5, 0.9, 0.8860755875933475, 0.5788612116287787, 0.6217534618676895],
  ['lognormal', 0, 38.5, 0.9175, 0.9046269741728359, 0.8950688391276443, 0.9203649332435718],
  ['lognormal', 1, 40.5, 0.8985, 0.8844916613108396, 0.8786914023121892, 0.905801798524746],
  ['lognormal', 2, 32, 0.9045, 0.8908328756318171, 0.5421649933964967, 0.5855896245515028],
];

describe('the likeliest setting of seed 12, 2 000 draws', () => {
  it.each(kept)('K %s, tool %i', (form, tool, setting, probability, low, low40, high40) => {
    const { best, also } = likeliestSetting(
      {
        scale,
        rangeShareMin: 0,
        correction: 1,
        error: { form: 'exact' },
        nutFactor: nutFactors[form] ?? { form: 'exact', value: 0.2 },
        diameterMm: 10,
        preloadN: { min: 15_000, max: 25_000 },
        running: null,
        seed: 12,
        samples: 2000,
        ...tools[tool],
      },
      [40],
    );
    expect(best?.setting).toEqual({ value: setting, unit: 'N·m' });
    expect(
      [best?.probability, best?.interval.low, also[0]?.low, also[0]?.high].map((value) => value?.toPrecision(12)),
    ).toEqual([probability, low, low40, high40].map((value) => value.toPrecision(12)));
    expect(best?.interval.confidence).toBe(0.95);
  });
});
