import { describe, expect, it } from 'vitest';
import type { Answer } from '../../../electron/headless/command.ts';
import { runCommand } from '../../../electron/headless/run.ts';
import type { ToolSettingResult } from '../../../shared-types/toolSetting.ts';
import { all, put, type Edit } from '../../support/editJson.ts';
import { answer, input, io, refusal } from './settingInput.ts';

const contractFields = ['setting', 'appliedNm', 'aimNm', 'correction', 'decision', 'marginNm', 'rangeShare'];

describe('setting: what the contract asks for', () => {
  it('is answered with the fields of the contract', async () => {
    const { exit, result } = await answer();
    expect(exit).toBe(0);
    expect(Object.keys(result)).toEqual(expect.arrayContaining(contractFields));
    expect(result).toMatchObject({
      setting: { value: 25, unit: 'N·m' },
      appliedNm: { nominal: 25, min: 24, max: 26 },
      aimNm: { min: 20, max: 30 },
      correction: 1,
      decision: 'conforming',
      marginNm: 4,
      rangeShare: 0.5,
    });
  });

  it('ends with 1 where the applied band sticks out of the callout, and where it misses it', async () => {
    const near = await answer(put('callout', { min: '24.5 N·m', max: '25.5 N·m' }));
    expect(near).toMatchObject({ exit: 1, result: { decision: 'indeterminate', setting: { value: 25 } } });
    expect(near.result.marginNm).toBeCloseTo(-0.5, 9);
    const far = await answer(put('callout', { min: '60 N·m', max: '70 N·m' }));
    expect(far).toMatchObject({ exit: 1, result: { decision: 'nonconforming', setting: { value: 50 } } });
    expect(far.result.reason).toMatch(/wholly outside/);
  });

  it('counts the ends of the callout in', async () => {
    const onEnds = put('callout', { min: '24 N·m', max: '26 N·m' });
    expect((await answer(onEnds)).result).toMatchObject({ decision: 'conforming', setting: { value: 25 } });
  });

  it('gives the lower of two settings that are as good', async () => {
    const edit = all(put('tool.accuracyOfReading', 0), put('tool.increment', 2));
    expect((await answer(edit)).result.setting?.value).toBe(24);
  });

  it('takes named settings, in any order, and those only that lie in the range', async () => {
    const named = (settings: unknown[], ...more: Edit[]) =>
      all(put('tool.increment', undefined), put('tool.settings', settings), ...more);
    expect((await answer(named([40, 27, 23, 12]))).result.setting).toEqual({ value: 23, unit: 'N·m' });
    expect((await answer(named(['2300 cN·m', '27 N·m']))).result.setting?.value).toBeCloseTo(23, 12);
    const none = await answer(named([5, 60]));
    expect(none).toMatchObject({
      exit: 1,
      result: { setting: null, appliedNm: null, marginNm: null, rangeShare: null, decision: 'nonconforming' },
    });
    expect(none.result.reason).toBe('The tool has no setting in its range, 10 to 50 N·m.');
  });

  it('keeps to the least share of the range, and to the tool’s own minimum', async () => {
    const low = put('callout', { min: '8 N·m', max: '14 N·m' });
    expect((await answer(low)).result.setting?.value).toBe(11);
    expect((await answer(all(low, put('rangeShareMin', 0.3)))).result.setting?.value).toBe(15);
    expect((await answer(all(low, put('tool.min', 13)))).result.setting?.value).toBe(13);
    expect((await answer(all(low, put('rangeShareMin', 1)))).result.setting?.value).toBe(50);
  });

  it('applies accuracy of full scale to the tool’s maximum', async () => {
    const edit = all(put('tool.accuracyOfReading', undefined), put('tool.accuracyOfFullScale', 0.04));
    expect((await answer(edit)).result).toMatchObject({ appliedNm: { nominal: 25, min: 23, max: 27 }, marginNm: 3 });
  });

  it('writes decimal marks without binary noise', async () => {
    const edit = all(
      put('tool', { min: 0.1, max: 1, increment: 0.1, unit: 'N·m', accuracyOfReading: 0.01 }),
      put('callout', { min: '0.28 N·m', max: '0.32 N·m' }),
    );
    expect((await answer(edit)).result.setting?.value).toBe(0.3);
  });

  it.each([
    ['45 lbf·ft', 'ft-lb', 'lbf·ft', 45],
    ['540 in-lb', 'lb-in', 'lbf·in', 540],
    ['100 kgf·cm', 'kgf.cm', 'kgf·cm', 100],
    ['80 oz-in', 'ozf-in', 'ozf·in', 80],
    ['25 Nm', 'N-m', 'N·m', 25],
    ['2.5 dN·m', 'dNm', 'dN·m', 2.5],
    ['3 MN·m', 'MNm', 'MN·m', 3],
    ['3 mN·m', 'mNm', 'mN·m', 3],
  ])('sets %s on a scale in %s', async (aim, typed, unit, value) => {
    const edit = all(
      put('callout', { min: aim, max: aim }),
      put('tool', { min: 0, max: value * 2, increment: value / 10, unit: typed, accuracyOfReading: 0 }),
    );
    const { exit, result } = await answer(edit);
    expect(exit).toBe(0);
    expect(result.setting).toEqual({ value, unit });
    expect(result.rangeShare).toBe(0.5);
  });
});

describe('setting: running torque', () => {
  const running = (included: boolean | undefined) =>
    all(put('running', { min: '1 N·m', max: '3 N·m' }), put('runningIncluded', included));

  it('not included moves the aim', async () => {
    const { result } = await answer(running(false));
    expect(result).toMatchObject({ aimNm: { min: 23, max: 31 }, setting: { value: 27 }, decision: 'conforming' });
    expect(result.ifNotIncluded).toBeNull();
  });

  it('included leaves the aim the callout', async () => {
    const { result } = await answer(running(true));
    expect(result).toMatchObject({
      aimNm: { min: 20, max: 30 },
      ifNotIncluded: null,
      assumptions: [],
      runningLimits: null,
    });
  });

  it('where the callout does not say, counts as included, is said to be assumed, and the other reading stands beside', async () => {
    const { result } = await answer(running(undefined));
    expect(result).toMatchObject({
      aimNm: { min: 20, max: 30 },
      setting: { value: 25 },
      ifNotIncluded: { aimNm: { min: 23, max: 31 }, setting: { value: 27 }, decision: 'conforming' },
    });
    expect(result.assumptions.join()).toMatch(/runningIncluded is absent/);
  });

  it('that leaves no aim is nonconforming, with the reason and no setting', async () => {
    const edit = all(running(false), put('callout', { min: '20 N·m', max: '21 N·m' }));
    const { exit, result } = await answer(edit);
    expect(exit).toBe(1);
    expect(result).toMatchObject({
      setting: null,
      appliedNm: null,
      aimNm: { min: 23, max: 22 },
      decision: 'nonconforming',
      marginNm: null,
      rangeShare: null,
    });
    expect(result.reason).toMatch(/^The aim is empty: running torque of 1 to 3 N·m/);
  });

  it('of one value leaves an aim as wide as the callout, were it of no width', async () => {
    const edit = all(
      put('running', { min: '3 N·m', max: '3 N·m' }),
      put('runningIncluded', false),
      put('callout', { min: '20 N·m', max: '20 N·m' }),
      put('tool.accuracyOfReading', 0),
    );
    expect((await answer(edit)).result).toMatchObject({ aimNm: { min: 23, max: 23 }, decision: 'conforming' });
  });

  it('that nobody knows: how much of it may be left out or added', async () => {
    const { runningLimits } = (await answer()).result;
    expect(runningLimits?.atSetting?.ignoredNm).toBeCloseTo(4, 12);
    expect(runningLimits?.atSetting?.addedNm).toBeCloseTo(30 / 1.04 - 25, 12);
    expect(runningLimits?.atBest.ignoredNm).toBeCloseTo((30 * 0.96) / 1.04 - 20, 12);
  });
});

describe('setting: an offset head', () => {
  const head = (length: string, angleDeg: number) => put('offsetHead', { length, angleDeg });

  it.each([
    [0, 0.75, 18.5],
    [60, 300 / 350, 21.5],
    [90, 1, 25],
    [180, 1.5, 37.5],
  ])('at %d° corrects by %d', async (angleDeg, correction, value) => {
    const { result } = await answer(head('100 mm', angleDeg));
    expect(result.correction).toBeCloseTo(correction, 12);
    expect(result.setting?.value).toBe(value);
    expect((result.appliedNm?.nominal ?? 0) * correction).toBeCloseTo(value, 9);
  });

  it('applies range and accuracy to the value set', async () => {
    const edit = all(
      head('300 mm', 0),
      put('callout', { min: '90 N·m', max: '110 N·m' }),
      put('tool.accuracyOfReading', undefined),
      put('tool.accuracyOfFullScale', 0.02),
    );
    // Set 50, applied 100; ± 2 % of 50 set is ± 2 applied.
    expect((await answer(edit)).result).toMatchObject({
      setting: { value: 50 },
      appliedNm: { nominal: 100, min: 98, max: 102 },
      rangeShare: 1,
      decision: 'conforming',
    });
  });

  it.each([
    ['without a lever', all(head('100 mm', 0), put('tool.lever', undefined)), 'missing-field', 'tool.lever'],
    ['on a screwdriver', all(head('100 mm', 0), put('tool.kind', 'screwdriver')), 'contradiction', 'offsetHead'],
    ['on a T-handle', all(head('100 mm', 0), put('tool.kind', 't-handle')), 'contradiction', 'offsetHead'],
    ['on a power tool', all(head('100 mm', 90), put('tool.kind', 'power-tool')), 'contradiction', 'offsetHead'],
    ['that reaches the hand', head('300 mm', 180), 'out-of-range', 'offsetHead.angleDeg'],
    ['beyond the hand', head('400 mm', 170), 'out-of-range', 'offsetHead.angleDeg'],
    ['of negative length', head('-1 mm', 0), 'out-of-range', 'offsetHead.length'],
    ['of a length in N', head('1 N', 0), 'wrong-kind', 'offsetHead.length'],
    ['with a lever of 0', all(head('100 mm', 0), put('tool.lever', '0 mm')), 'out-of-range', 'tool.lever'],
    ['with a bare lever', all(head('100 mm', 0), put('tool.lever', 300)), 'ambiguous-quantity', 'tool.lever'],
  ] as const)('%s is refused', async (_what, edit, code, field) => {
    expect(await refusal(edit)).toMatchObject({ code, field });
  });
});

describe('setting: bad input is refused by name', () => {
  it.each([
    ['a bare callout', put('callout.min', 20), 'ambiguous-quantity', 'callout.min'],
    ['two readings', put('callout.min', '1,200 lbf·in'), 'ambiguous-quantity', 'callout.min'],
    ['a callout in mm', put('callout.max', '30 mm'), 'wrong-kind', 'callout.max'],
    ['a callout upside down', put('callout.min', '31 N·m'), 'contradiction', 'callout.min'],
    ['a negative callout', put('callout.min', '-1 N·m'), 'out-of-range', 'callout.min'],
    ['a callout of nothing', put('callout', { min: '0 N·m', max: '0 N·m' }), 'out-of-range', 'callout.max'],
    ['no callout', put('callout', undefined), 'missing-field', 'callout'],
    ['no tool', put('tool', undefined), 'missing-field', 'tool'],
    ['no unit', put('tool.unit', undefined), 'missing-field', 'tool.unit'],
    ['a unit of length', put('tool.unit', 'mm'), 'wrong-kind', 'tool.unit'],
    ['an unknown unit', put('tool.unit', 'newton'), 'unknown-unit', 'tool.unit'],
    ['a text without unit on the scale', put('tool.min', '10'), 'ambiguous-quantity', 'tool.min'],
    ['a range upside down', put('tool.min', 60), 'contradiction', 'tool.min'],
    ['a range of nothing', all(put('tool.min', 0), put('tool.max', 0)), 'out-of-range', 'tool.max'],
    ['a negative minimum', put('tool.min', -1), 'out-of-range', 'tool.min'],
    ['an increment of 0', put('tool.increment', 0), 'out-of-range', 'tool.increment'],
    ['an increment of next to nothing', put('tool.increment', 1e-300), 'out-of-range', 'tool.increment'],
    ['a torque beyond all', put('callout.max', '2000000 MN·m'), 'out-of-range', 'callout.max'],
    ['increment and settings', put('tool.settings', [20]), 'contradiction', 'tool.settings'],
    ['neither of them', put('tool.increment', undefined), 'missing-field', 'tool.increment'],
    ['an empty list', all(put('tool.increment', undefined), put('tool.settings', [])), 'wrong-shape', 'tool.settings'],
    ['both accuracies', put('tool.accuracyOfFullScale', 0.04), 'contradiction', 'tool.accuracyOfFullScale'],
    ['no accuracy', put('tool.accuracyOfReading', undefined), 'missing-field', 'tool.accuracyOfReading'],
    ['percent for a share', put('tool.accuracyOfReading', 4), 'out-of-range', 'tool.accuracyOfReading'],
    ['an accuracy below 0', put('tool.accuracyOfReading', -0.04), 'out-of-range', 'tool.accuracyOfReading'],
    ['NaN', put('tool.max', Number.NaN), 'wrong-shape', 'tool.max'],
    ['not included and not given', put('runningIncluded', false), 'missing-field', 'running'],
    ['running above the callout', put('running', { min: '1 N·m', max: '31 N·m' }), 'contradiction', 'running.max'],
    ['running upside down', put('running', { min: '2 N·m', max: '1 N·m' }), 'contradiction', 'running.min'],
    ['a share above 1', put('rangeShareMin', 1.2), 'out-of-range', 'rangeShareMin'],
    ['an unknown field', put('tool.colour', 'red'), 'wrong-shape', 'tool.colour'],
    ['an unknown field at the top', put('torque', '5 N·m'), 'wrong-shape', 'torque'],
    ['a temperature without unit', put('siteTemperature', '31'), 'unreadable-quantity', 'siteTemperature'],
    ['a temperature that cannot be', put('siteTemperature', '-300 °C'), 'out-of-range', 'siteTemperature'],
    [
      'a normal spread of no coverage',
      put('distribution', { form: 'normal' }),
      'missing-field',
      'distribution.coverage',
    ],
  ] as const)('%s', async (_what, edit, code, field) => {
    const { field: at, ...said } = await refusal(edit);
    expect({ ...said, field: at }).toMatchObject({ code, field });
    expect(said.message).toContain(field);
  });

  it('and all of it in one go', async () => {
    const { rows } = await refusal(all(put('callout.min', '20 mm'), put('tool.min', -1), put('tool.unit', 'mm')));
    expect(rows?.map((row) => row.field)).toEqual(['callout.min', 'tool.unit', 'tool.min']);
  });

  it('names the standard’s deviation where none is given, and does not take it', async () => {
    const { message } = await refusal(put('tool.accuracyOfReading', undefined));
    expect(message).toMatch(/none is assumed\. ISO 6789 .* 0\.04 for .* above 10 N\*m/);
  });
});

describe('setting: the command line itself', () => {
  it('takes the object alone in a batch, one file and one only', async () => {
    expect(await runCommand('setting', [input()], io)).toMatchObject({ exit: 0 });
    await expect(runCommand('setting', [], io)).rejects.toThrow(/file is missing/i);
    await expect(runCommand('setting', [input(), '--file', input()], io)).rejects.toThrow(/given twice/);
  });

  it('is the setting that a bag reports', async () => {
    const { smallPlan } = await import('../../support/smallPlan.ts');
    const plan = smallPlan() as unknown as {
      catalog: { torqueTools: Record<string, unknown>[] };
      steps: { id: string; action: string; callout: unknown }[];
      rangeShareMin?: number;
    };
    const bag = (await runCommand('bag', [plan as unknown as Record<string, unknown>], io)) as Answer;
    const steps = (
      bag.result as { outings: { steps: { id: string; stack: string[]; setting: unknown }[] }[] }
    ).outings.flatMap((outing) => outing.steps);
    const tightened = plan.steps.filter(({ action }) => action === 'tighten');
    expect(tightened.length).toBeGreaterThan(0);
    for (const { id, callout } of tightened) {
      const said = steps.find((step) => step.id === id);
      const tool = plan.catalog.torqueTools.find((one) => one['id'] === said?.stack[0]) ?? {};
      const { min, max, increment, settings, accuracyOfReading } = tool;
      const unit = String(increment ?? (settings as string[])[0]).replace(/^[\d.]+\s*/, '');
      const asked = { callout, tool: { min, max, increment, settings, unit, accuracyOfReading } };
      const { result } = (await runCommand(
        'setting',
        [JSON.parse(JSON.stringify(asked)) as Record<string, unknown>],
        io,
      )) as Answer;
      expect((result as ToolSettingResult).setting).toEqual(said?.setting);
    }
  });
});
