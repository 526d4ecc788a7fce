/** What a setting's answer says beside its numbers: each sentence where it is true, each document's share as it prints it. */
import { describe, expect, it } from 'vitest';
import { calibrationOf } from '../../../renderer/engine/setting/calibration.ts';
import { rangeUses } from '../../../renderer/engine/setting/rangeUses.ts';
import { convertValue } from '../../../renderer/engine/units/index.ts';
import { resultOf, told } from '../../electron/headless/inProcess.ts';
import type { ToolSettingResult } from '../../../shared-types/toolSetting.ts';

type Given = Record<string, unknown>;

const tool = { min: 10, max: 50, increment: 0.5, unit: 'N·m', accuracyOfReading: 0.04, lever: '300 mm' };
const callout = { min: '20 N·m', max: '30 N·m' };
const running = { min: '1 N·m', max: '2 N·m' };
const offsetHead = { length: '50 mm', angleDeg: 90 };

async function answer(more: Given = {}): Promise<ToolSettingResult> {
  const given = await told<ToolSettingResult>('setting', { callout, tool, ...more });
  if (given.exit === 2) throw new Error(given.error.message);
  return given.result;
}

async function refusal(more: Given): Promise<string> {
  const given = await told('setting', { callout, tool, ...more });
  return given.exit === 2 ? `${given.error.field ?? ''}: ${given.error.code}` : 'not refused';
}

describe('ISO 6789, as its table prints it', () => {
  it('6 % up to a maximum of 10 N·m, 4 % above; test device 1 %; 20, 60 and 100 %; 18 to 28 °C; 0.5 to 4 s; 5 cycles', () => {
    const printed = {
      testDeviceError: 0.01,
      checkShares: [0.2, 0.6, 1],
      preloadingCycles: 5,
      ambientC: { min: 18, max: 28 },
    };
    expect(calibrationOf(10)).toMatchObject({
      ...printed,
      permissibleDeviation: 0.06,
      lastFifthOfLoadS: { min: 0.5, max: 4 },
    });
    expect(calibrationOf(10.01)).toMatchObject({ ...printed, permissibleDeviation: 0.04 });
  });
});

describe('the use of a range', () => {
  const of = (maxLbfIn: number, lbfIn: number) =>
    rangeUses({
      maxNm: convertValue(maxLbfIn, 'lbf·in', 'N·m'),
      callout: { minNm: convertValue(lbfIn - 1, 'lbf·in', 'N·m'), maxNm: convertValue(lbfIn + 1, 'lbf·in', 'N·m') },
      rangeShare: lbfIn / maxLbfIn,
    });

  it('has the shares each document prints, and a verdict only for a tool it prints', () => {
    const uses = of(150, 100);
    const shares = uses.map(({ says, minShare, maxShare, inside }) => ({ says, minShare, maxShare, inside }));
    expect(shares).toContainEqual({
      says: 'for 25 to 140 lbf·in the tool of 150 lbf·in is taken',
      minShare: 25 / 150,
      maxShare: 140 / 150,
      inside: true,
    });
    expect(shares).toContainEqual({
      says: 'a tool of 0 to 200 lbf·in is most effective at 50 to 150',
      minShare: 0.25,
      maxShare: 0.75,
      inside: null,
    });
    expect(of(200, 30).find(({ says }) => says.startsWith('a tool of 0 to 200 lbf·in'))?.inside).toBe(false);
    expect(of(200, 100).find(({ says }) => says.startsWith('a tool of 0 to 200 lbf·in'))?.inside).toBe(true);
    expect(
      of(150, 145).find(({ says }) => says.includes('25 to 140')),
      'the callout is not in its row',
    ).toBeUndefined();
    expect(
      of(150, 19).map(({ inside }) => inside),
      'below a fifth',
    ).toContain(false);
    expect(uses.every(({ source }) => source.number !== '')).toBe(true);
  });
});

describe('what is assumed', () => {
  const kind = 'tool.kind is absent';
  const grip = 'The force is square to the lever';
  const included = 'runningIncluded is absent';

  it.each<[string, Given, string[]]>([
    ['nothing, where nothing is left open', {}, []],
    ['a wrench under an offset head', { offsetHead }, [kind, grip]],
    ['no kind where it is given', { offsetHead, tool: { ...tool, kind: 'wrench' } }, [grip]],
    ['no kind without an offset head', { tool: { ...tool, kind: 'wrench' } }, []],
    ['that the callout includes the running torque', { running }, [included]],
    ['not so where it is said', { running, runningIncluded: true }, []],
    ['nor where it is said not to', { running, runningIncluded: false }, []],
  ])('%s', async (_name, more, expected) => {
    const said = (await answer(more)).assumptions.join('\n');
    expect([kind, grip, included].filter((text) => said.includes(text)).toSorted()).toEqual(expected.toSorted());
  });
});

describe('both readings of running torque', () => {
  it('stand beside each other only where the callout does not say which', async () => {
    expect((await answer({ running })).ifNotIncluded).toMatchObject({ aimNm: { min: 22, max: 31 } });
    expect((await answer({ running, runningIncluded: true })).ifNotIncluded).toBeNull();
    expect((await answer({ running, runningIncluded: false })).ifNotIncluded).toBeNull();
    expect((await answer()).ifNotIncluded).toBeNull();
  });

  it('without any, its limits are given instead', async () => {
    expect((await answer()).runningLimits).not.toBeNull();
    expect((await answer({ running })).runningLimits).toBeNull();
  });
});

describe('the reason of a tool without a setting', () => {
  const none = { tool: { ...tool, min: 40.2, max: 40.4 } };

  it('names its range, and the least share only where one is asked for', async () => {
    expect((await answer(none)).reason).toMatch(/no setting in its range, 40\.2 to 40\.4 N·m\.$/);
    expect((await answer({ ...none, rangeShareMin: 0 })).reason).not.toContain('%');
    expect((await answer({ ...none, rangeShareMin: 0.2 })).reason).toMatch(/and at least 20 % of its maximum/);
  });
});

describe('the ends of what is taken', () => {
  it('marks as fine as a thousand-millionth of the maximum, and no finer', async () => {
    expect(await refusal({ tool: { ...tool, increment: 50 / 1e9 } })).toBe('not refused');
    expect(await refusal({ tool: { ...tool, increment: 49 / 1e9 } })).toBe('tool.increment: out-of-range');
  });

  it('a uniform spread of one value, and none upside down', async () => {
    const preloadLimits = { min: '9 kN', max: '15 kN', thread: 'M10', seed: 1, samples: 1000 };
    const uniform = (min: number, max: number): Given => ({
      distribution: { form: 'uniform' },
      preloadLimits: { ...preloadLimits, nutFactor: { form: 'uniform', min, max } },
    });
    expect(await refusal(uniform(0.2, 0.2))).toBe('not refused');
    expect(await refusal(uniform(0.21, 0.2))).toBe('preloadLimits.nutFactor.min: contradiction');
  });

  it('one start of a designated thread may be said, two may not; a pitch without starts is assumed to have one', async () => {
    const turning = { length: '15 mm' };
    expect(await refusal({ turning: { ...turning, thread: 'M10', starts: 1 } })).toBe('not refused');
    expect(await refusal({ turning: { ...turning, thread: 'M10', starts: 2 } })).toBe('turning.starts: contradiction');
    const assumed = async (more: Given): Promise<boolean> =>
      (await answer({ turning: { ...turning, ...more } })).assumptions.join().includes('one start is taken');
    expect(await assumed({ pitch: '1.5 mm' })).toBe(true);
    expect(await assumed({ pitch: '1.5 mm', starts: 2 })).toBe(false);
    expect(await assumed({ thread: 'M10' })).toBe(false);
    const two = await resultOf<ToolSettingResult>('setting', {
      callout,
      tool,
      turning: { ...turning, pitch: '1.5 mm', starts: 2 },
    });
    expect(two.turning).toMatchObject({ leadMm: 3, turns: 5 });
  });
});

describe('what is given twice, or by halves', () => {
  const refusals = async (more: Given): Promise<string[]> => {
    const given = await told('setting', { callout, tool, ...more });
    if (given.exit !== 2) return [];
    const all = given.error.rows ?? [given.error];
    return all.map(({ field, code }) => `${field ?? ''}: ${code}`);
  };

  it('a twisting part has a moment or a diameter, one of them, and a bore below its diameter', async () => {
    const part = { length: '250 mm', shearModulus: '80 GPa' };
    const windUp = async (more: Given): Promise<string[]> => refusals({ windUp: [{ ...part, ...more }] });
    expect(await windUp({ polarMomentMm4: 2000 })).toEqual([]);
    expect(await windUp({ outsideDiameter: '12 mm' })).toEqual([]);
    expect(await windUp({ outsideDiameter: '12 mm', insideDiameter: '11.9 mm' })).toEqual([]);
    expect(await windUp({})).toEqual(['windUp[0]: missing-field']);
    expect(await windUp({ polarMomentMm4: 2000, outsideDiameter: '12 mm' })).toEqual(['windUp[0]: contradiction']);
    for (const bore of [{ outsideDiameter: '12 mm' }, { polarMomentMm4: 2000 }]) {
      expect(await windUp({ ...bore, insideDiameter: '12 mm' })).toEqual(['windUp[0].insideDiameter: contradiction']);
    }
  });

  it('a least preload may be 0, a greatest may not, and one that cannot be read is not compared', async () => {
    const limits = (min: string, max: string): Given => ({
      distribution: { form: 'exact' },
      preloadLimits: { min, max, nutFactor: { form: 'exact', value: 0.2 }, thread: 'M10', seed: 1, samples: 1000 },
    });
    expect(await refusals(limits('0 N', '15 kN'))).toEqual([]);
    expect(await refusals(limits('0 N', '0 N'))).toEqual(['preloadLimits.max: out-of-range']);
    expect(await refusals(limits('-1 N', '15 kN'))).toEqual(['preloadLimits.min: out-of-range']);
    expect((await refusals(limits('x', '0.5 N'))).map((text) => text.split(':')[0])).toEqual(['preloadLimits.min']);
  });

  it('time is that of the turns or of the strokes, whichever is stated', async () => {
    const turning = { length: '15 mm', pitch: '1.5 mm', starts: 1, swingDeg: 90, stepDeg: 5 };
    const seconds = async (more: Given): Promise<number | null | undefined> =>
      (await answer({ turning: { ...turning, ...more } })).turning?.seconds;
    expect(await seconds({})).toBeNull();
    expect(await seconds({ secondsPerTurn: 3 }), 'ten turns').toBe(30);
    expect(await seconds({ secondsPerStroke: 2 }), 'forty strokes of 90°').toBe(80);
  });

  it('the common range of a tool is a fifth of its maximum up to the whole of it', () => {
    const uses = rangeUses({ maxNm: 50, callout: { minNm: 40, maxNm: 50 }, rangeShare: 1 });
    expect(uses[0]).toMatchObject({ minShare: 0.2, maxShare: 1, inside: true });
    expect(rangeUses({ maxNm: 50, callout: { minNm: 40, maxNm: 50 }, rangeShare: 0.19 })[0]?.inside).toBe(false);
  });
});
