import { describe, expect, it } from 'vitest';
import { all, put } from '../../support/editJson.ts';
import { answer, refusal } from './settingInput.ts';

describe('setting: beyond the contract', () => {
  it('the probability of conformity stands beside the decision and does not replace it', async () => {
    const edit = all(
      put('callout', { min: '24.5 N·m', max: '30 N·m' }),
      put('tool.increment', undefined),
      put('tool.settings', [25]),
      put('distribution', { form: 'uniform' }),
    );
    const { exit, result } = await answer(edit);
    expect(exit).toBe(1);
    expect(result.decision).toBe('indeterminate');
    expect(result.probability?.ofConformity).toBeCloseTo(0.75, 12);
  });

  it.each([
    ['17.9 °C', 1],
    ['18 °C', 0],
    ['28 °C', 0],
    ['31 °C', 1],
    ['64.4 °F', 0],
    ['88 °F', 1],
  ])('a site at %s: %d queries', async (typed, count) => {
    const { exit, result } = await answer(put('siteTemperature', typed));
    expect(exit).toBe(0);
    expect(result.queries.map(({ rule, source }) => [rule, source.key])).toEqual(
      Array.from({ length: count }, () => ['site-temperature', 'torque-tools-iso-6789']),
    );
  });

  it('the documents that differ on the use of the range stand side by side', async () => {
    const edit = all(
      put('tool', { min: 30, max: 200, increment: 1, unit: 'lbf·in', accuracyOfReading: 0.04 }),
      put('callout', { min: '155 lbf·in', max: '185 lbf·in' }),
    );
    const { useOfRange } = (await answer(edit)).result;
    const verdicts = useOfRange.filter(({ inside }) => inside !== null).map((use) => [use.source.key, use.inside]);
    expect(verdicts).toEqual([
      ['common-practice', true],
      ['torque-tool-range-laboratory', true],
      ['torque-tools-iso-6789', true],
      ['torque-tool-effective-range-army', false],
    ]);
  });

  it('the wind-up of the parts is that of their sum', async () => {
    const bar = { length: '250 mm', shearModulus: '79.3 GPa', outsideDiameter: '12 mm' };
    const edit = put('windUp', [bar, { length: '250 mm', shearModulus: '79300 MPa', polarMomentMm4: 2035.752 }]);
    const { windUpDeg } = (await answer(edit)).result;
    expect(windUpDeg?.parts[0]).toBeCloseTo(8.8729 / 4, 4);
    expect(windUpDeg?.nominal).toBeCloseTo(8.8729 / 2, 3);
    expect((windUpDeg?.max ?? 0) / (windUpDeg?.nominal ?? 1)).toBeCloseTo(1.04, 9);
  });

  it('the setting likeliest to give a preload within its limits, the same every time', async () => {
    const limits = { min: '15 kN', max: '25 kN', thread: 'M10', seed: 4, samples: 20_000 };
    const edit = all(
      put('callout', { min: '30 N·m', max: '45 N·m' }),
      put('distribution', { form: 'normal', coverage: 0.95 }),
      put('preloadLimits', { ...limits, nutFactor: { form: 'lognormal', mean: 0.2, standardDeviation: 0.03 } }),
    );
    const { preload } = (await answer(edit)).result;
    expect(preload).toEqual((await answer(edit)).result.preload);
    expect(preload).toMatchObject({ seed: 4, samples: 20_000 });
    expect(preload?.likeliest?.setting.value).toBeGreaterThan(36);
    expect(preload?.likeliest?.setting.value).toBeLessThan(41);
    expect(preload?.likeliest?.interval.method).toMatch(/Monte Carlo.*Wilson/);
  });

  const spread = { form: 'normal', mean: 0.2, standardDeviation: 0.03 };
  it.each([
    ['without a distribution', { thread: 'M10', nutFactor: spread }, 'missing-field', 'distribution'],
    ['upside down', { min: '26 kN', thread: 'M10', nutFactor: spread }, 'contradiction', 'preloadLimits.min'],
    ['in N·m', { max: '25 N·m', thread: 'M10', nutFactor: spread }, 'wrong-kind', 'preloadLimits.max'],
    ['of no thread', { thread: 'bolt', nutFactor: spread }, 'unreadable-thread', 'preloadLimits.thread'],
    ['of no diameter', { nutFactor: spread }, 'missing-field', 'preloadLimits'],
    [
      'of nut factors below 0',
      { thread: 'M10', nutFactor: { ...spread, standardDeviation: 0.05 } },
      'out-of-range',
      'preloadLimits.nutFactor.standardDeviation',
    ],
    [
      'of a nut factor of 0',
      { thread: 'M10', nutFactor: { form: 'exact', value: 0 } },
      'out-of-range',
      'preloadLimits.nutFactor.value',
    ],
  ])('preload limits %s are refused', async (what, limits, code, field) => {
    const edit = all(
      put('preloadLimits', { min: '15 kN', max: '25 kN', ...limits }),
      put('distribution', what === 'without a distribution' ? undefined : { form: 'uniform' }),
    );
    expect(await refusal(edit)).toMatchObject({ code, field });
  });

  it.each([
    [
      'a designated thread',
      { length: '12 mm', thread: 'M10' },
      { leadMm: 1.5, turns: 8, strokes: null, seconds: null },
    ],
    [
      'a screw of two starts, with a pace',
      { length: '12 mm', pitch: '1.5 mm', starts: 2, secondsPerTurn: 3 },
      { leadMm: 3, turns: 4, seconds: 12 },
    ],
    [
      'a ratchet in a swing',
      { length: '12 mm', thread: 'M10', swingDeg: 63, stepDeg: 5, secondsPerStroke: 1.5 },
      { turns: 8, strokeDeg: 60, strokes: 48, wholeStrokes: 48, seconds: 72 },
    ],
    [
      'six points without a ratchet',
      { length: '12 mm', thread: 'M10', swingDeg: 60, opening: 'hex6' },
      { strokeDeg: 60, wholeStrokes: 48, seconds: null },
    ],
  ])('turns of %s', async (_what, turning, said) => {
    expect((await answer(put('turning', turning))).result.turning).toMatchObject(said);
  });

  it.each([
    [
      'a swing smaller than a step',
      { thread: 'M10', swingDeg: 50, opening: 'hex6' },
      'out-of-range',
      'turning.swingDeg',
    ],
    ['a swing without a step', { thread: 'M10', swingDeg: 50 }, 'missing-field', 'turning.stepDeg'],
    [
      'two paces',
      { thread: 'M10', secondsPerTurn: 1, secondsPerStroke: 1 },
      'contradiction',
      'turning.secondsPerStroke',
    ],
    ['strokes without a swing', { thread: 'M10', secondsPerStroke: 1 }, 'missing-field', 'turning.swingDeg'],
    ['two threads', { thread: 'M10', pitch: '1 mm' }, 'contradiction', 'turning'],
    ['two starts of a fastener', { thread: 'M10', starts: 2 }, 'contradiction', 'turning.starts'],
  ])('turns: %s is refused', async (_what, turning, code, field) => {
    expect(await refusal(put('turning', { length: '12 mm', ...turning }))).toMatchObject({ code, field });
  });
});
