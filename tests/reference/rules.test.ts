import { describe, expect, it } from 'vitest';
import { handPlan, tighten, wrench } from './handPlan.ts';
import { atMost, driveSquare, lengthMm, massKg, torqueNm, volumeL } from './quantity.ts';
import { chosenSettingNm, stackFromIds, stackIds, stacksFor, stepJob } from './rules.ts';
import { readStock } from './stock.ts';

type WrenchBend = NonNullable<Parameters<typeof wrench>[0]>;

function settingNm(min: string, max: string, bend: WrenchBend = {}, rangeShareMin = 0): number | null {
  const step = tighten({ callout: { min, max } });
  const plan = handPlan([step], { torqueTools: [wrench(bend)] }, { rangeShareMin });
  const tool = readStock(plan).tools.find((one) => one.id === 'wrench');
  const job = stepJob(plan, step);
  if (tool === undefined || job === null) throw new Error('no tool or job');
  return chosenSettingNm(tool, job);
}

describe('the setting of rule 6', () => {
  // With an accuracy a the margins at setting s are s(1 − a) − min and max − s(1 + a).
  it.each([
    ['in the middle of the band', '18 N·m', '22 N·m', {}, 0, 20],
    ['the lower of 20 and 21 around 20.5, both 0.5 inside', '19.5 N·m', '21.5 N·m', { accuracyOfReading: 0 }, 0, 20],
    ['21 where only 21 fits: 20.16 to 21.84', '20.16 N·m', '22 N·m', {}, 0, 21],
    ['not 20, at 19.2, where the least is 19.3', '19.3 N·m', '22.5 N·m', {}, 0, 21],
    ['nothing where 41 % of 50 N·m is asked and 20 alone fits', '19.2 N·m', '20.8 N·m', {}, 0.41, null],
    ['the next above where the best is under the share of the range', '18 N·m', '22 N·m', {}, 0.42, 21],
    ['from a list', '18 N·m', '22 N·m', { increment: undefined, settings: ['19 N·m', '20.5 N·m', '21 N·m'] }, 0, 20.5],
    [
      'a multiple of the increment, not min plus a multiple',
      '18 N·m',
      '22 N·m',
      { min: '11 N·m', increment: '2 N·m' },
      0,
      20,
    ],
  ] as const)('is %s', (_, min, max, bend, share, wanted) => {
    const found = settingNm(min, max, bend as WrenchBend, share);
    if (wanted === null) expect(found).toBeNull();
    else expect(found).toBeCloseTo(wanted, 9);
  });

  it('takes running torque out of the aim: [18 + 1, 26 + 1] holds 23, the callout alone 22', () => {
    const running = { min: '1 N·m', max: '1 N·m' };
    const step = tighten({ callout: { min: '18 N·m', max: '26 N·m' }, running, runningIncluded: false });
    const plan = handPlan([step]);
    const tool = readStock(plan).tools.find((one) => one.id === 'wrench');
    const job = stepJob(plan, step);
    expect(tool && job && chosenSettingNm(tool, job)).toBeCloseTo(23, 9);
    expect(job?.demandNm).toBeCloseTo(27, 9);
  });
});

describe('stacks', () => {
  it('are all that fit, and read back from their ids', () => {
    const plan = handPlan();
    const stock = readStock(plan);
    const [step] = plan.steps;
    const job = step === undefined ? null : stepJob(plan, step);
    const found = job === null ? [] : stacksFor(stock, job);
    expect(found.map(stackIds)).toEqual([
      ['ratchet', 'socket'],
      ['ratchet', 'ext', 'socket'],
    ]);
    expect(found.map((stack) => stackFromIds(stock, stackIds(stack)))).toEqual(found);
    expect(stackFromIds(stock, ['ratchet', 'socket', 'ext'])).toBeNull();
    expect(stackFromIds(stock, [])).toBeNull();
  });
});

describe('quantities', () => {
  it('read in each unit the plans are written in', () => {
    expect(lengthMm('1-1/8 in')).toBeCloseTo(28.575, 12);
    expect(lengthMm('7/16"')).toBeCloseTo(11.1125, 12);
    expect(torqueNm('45 lbf·ft')).toBeCloseTo(61.01180767, 8);
    expect(torqueNm('100 in-lb')).toBeCloseTo(11.29848290276167, 12);
    expect(massKg('16 oz')).toBeCloseTo(massKg('1 lb'), 12);
    expect(volumeL('1 in3')).toBeCloseTo(0.016387064, 12);
    expect(driveSquare('12.5 mm')).toBe(driveSquare('1/2 in'));
  });

  it('of another kind or without a unit are refused', () => {
    expect(() => lengthMm('3 kg')).toThrow('no length');
    expect(() => lengthMm('3')).toThrow('no length');
    expect(() => driveSquare('11 mm')).toThrow('no drive');
  });

  it('compare with 1e-9 relative', () => {
    expect(atMost(100 * (1 + 0.9e-9), 100)).toBe(true);
    expect(atMost(100 * (1 + 1.1e-9), 100)).toBe(false);
    expect(atMost(1e-12, 0)).toBe(false);
  });
});
