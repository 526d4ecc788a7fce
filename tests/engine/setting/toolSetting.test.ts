import { describe, expect, it } from 'vitest';
import { settingFrom } from '../../../renderer/engine/setting/readSetting.ts';
import { toolSetting } from '../../../renderer/engine/setting/toolSetting.ts';
import type { ToolSettingResult } from '../../../shared-types/toolSetting.ts';
import {
  aimOf,
  bandAt,
  correctionOf,
  everySetting,
  marginAt,
  random,
  randomCase,
  reference,
  type Case,
} from './reference.ts';
import { shareOf } from '../../support/shareOf.ts';

const newtonMetresIn = { N·m: 1, lbf·in: 0.1129848290276167, kgf·cm: 0.0980665 } as const;
type ScaleUnit = keyof typeof newtonMetresIn;

function inputOf(x: Case, unit: ScaleUnit = 'N·m', asTexts = false): Record<string, unknown> {
  const torque = (value: number) => `${value} ${unit}`;
  const onScale = (value: number) => (asTexts ? torque(value) : value);
  const band = ([min, max]: [number, number]) => ({ min: torque(min), max: torque(max) });
  return {
    callout: band(x.callout),
    ...(x.running === null ? {} : { running: band(x.running), runningIncluded: x.included }),
    tool: {
      min: onScale(x.min),
      max: onScale(x.max),
      ...('settings' in x.marks
        ? { settings: x.marks.settings.map(onScale) }
        : { increment: onScale(x.marks.increment) }),
      unit,
      ...(x.ofFullScale > 0 ? { accuracyOfFullScale: x.ofFullScale } : { accuracyOfReading: x.ofReading }),
      ...(x.head === null ? {} : { lever: `${x.head.lever} mm` }),
    },
    ...(x.head === null ? {} : { offsetHead: { length: `${x.head.length} mm`, angleDeg: x.head.angleDeg } }),
    rangeShareMin: x.shareMin,
  };
}

const answer = (input: unknown): ToolSettingResult => toolSetting(settingFrom(input));
const cases = (seed: number, count: number): Case[] => {
  const next = random(seed);
  return Array.from({ length: count }, () => randomCase(next));
};

describe('every setting of the scale tried', () => {
  const all = cases(2024, shareOf(2000));

  it('gives, 2,000 times in all, the setting, margin and decision of the command', () => {
    const decisions = new Map<string, number>();
    for (const x of all) {
      const found = reference(x);
      const got = answer(inputOf(x));
      const said = JSON.stringify(x);
      expect(got.decision, said).toBe(found.decision);
      expect(got.correction, said).toBeCloseTo(found.correction, 12);
      expect(got.setting === null, said).toBe(found.value === null);
      if (found.value !== null && got.setting !== null) {
        expect(got.setting.value, said).toBeCloseTo(found.value, 9);
        expect(got.marginNm, said).toBeCloseTo(found.margin, 9);
        expect(got.rangeShare, said).toBeCloseTo(found.value / x.max, 12);
        const [from, to] = bandAt(x, found.value);
        expect(got.appliedNm?.min, said).toBeCloseTo(from, 9);
        expect(got.appliedNm?.max, said).toBeCloseTo(to, 9);
        expect(got.appliedNm?.nominal, said).toBeCloseTo(found.value / correctionOf(x), 9);
      } else expect([got.appliedNm, got.marginNm, got.rangeShare], said).toEqual([null, null, null]);
      expect([got.aimNm.min, got.aimNm.max], said).toEqual(aimOf(x).map((nm) => expect.closeTo(nm, 9) as number));
      decisions.set(found.decision, (decisions.get(found.decision) ?? 0) + 1);
    }
    // The cases would prove little if one decision were rare.
    for (const decision of ['conforming', 'nonconforming', 'indeterminate'])
      expect(decisions.get(decision) ?? 0, decision).toBeGreaterThan(shareOf(200));
  });

  it('cover named settings, full scale, offset heads, running torque, empty aims and empty ranges', () => {
    expect(all.filter((x) => 'settings' in x.marks).length).toBeGreaterThan(shareOf(300));
    expect(all.filter((x) => x.ofFullScale > 0).length).toBeGreaterThan(shareOf(300));
    expect(all.filter((x) => x.head !== null).length).toBeGreaterThan(shareOf(300));
    expect(all.filter((x) => !x.included).length).toBeGreaterThan(shareOf(300));
    expect(all.filter((x) => aimOf(x)[0] > aimOf(x)[1]).length).toBeGreaterThan(shareOf(30));
    expect(all.filter((x) => everySetting(x).length === 0).length).toBeGreaterThan(shareOf(10));
  });

  it('is never beaten by another setting', () => {
    for (const x of cases(7, 500)) {
      const { setting, marginNm } = answer(inputOf(x));
      if (setting === null) continue;
      const best = Math.max(...everySetting(x).map((value) => marginAt(x, value)));
      expect(best).toBeLessThanOrEqual((marginNm ?? 0) + 1e-7);
    }
  });
});

describe('a decision', () => {
  it('is never lost by widening the callout', () => {
    let conforming = 0;
    for (const x of cases(31, shareOf(800))) {
      if (answer(inputOf(x)).decision !== 'conforming') continue;
      conforming += 1;
      for (const [down, up] of [
        [1, 0],
        [0, 1],
        [3, 2],
      ] as const) {
        const wider: Case = { ...x, callout: [x.callout[0] - down, x.callout[1] + up] };
        expect(answer(inputOf(wider)).decision, JSON.stringify(wider)).toBe('conforming');
      }
    }
    expect(conforming).toBeGreaterThan(shareOf(100));
  });

  it('is the same for the same tool in another unit, as numbers and as quantities', () => {
    for (const x of cases(32, shareOf(400))) {
      // All of it in another unit: every torque is another one, and every decision stays.
      const { decision, setting, marginNm } = answer(inputOf(x));
      for (const unit of ['lbf·in', 'kgf·cm'] as const) {
        for (const asTexts of [false, true]) {
          const other = answer(inputOf(x, unit, asTexts));
          expect(other.decision, JSON.stringify(x)).toBe(decision);
          expect(other.setting?.value, JSON.stringify(x)).toBe(setting?.value);
          expect(other.setting?.unit).toBe(setting === null ? undefined : unit);
          if (marginNm !== null) expect((other.marginNm ?? 0) / newtonMetresIn[unit]).toBeCloseTo(marginNm, 8);
        }
      }
    }
  });

  it('is the same where the tool is typed in a unit that is not its own', () => {
    const own = { callout: { min: '20 N·m', max: '30 N·m' } };
    const tool = { unit: 'N·m', accuracyOfReading: 0.04 };
    const numbers = answer({ ...own, tool: { ...tool, min: 10, max: 50, increment: 0.5 } });
    const typed = answer({ ...own, tool: { ...tool, min: '1000 cN·m', max: '0.05 kN·m', increment: '500 mN·m' } });
    expect(typed.setting).toEqual(numbers.setting);
    expect(typed.marginNm).toBeCloseTo(numbers.marginNm ?? Number.NaN, 9);
  });
});

describe('marks of a scale', () => {
  it('are decimal: no mark carries binary noise', () => {
    for (let n = 1; n <= 3000; n += 1) {
      const whole = Math.floor(n / 10);
      const mark = Number(`${whole}.${n % 10}`);
      const { setting } = answer({
        callout: { min: `${mark} N·m`, max: `${mark} N·m` },
        tool: { min: 0, max: 300, increment: 0.1, unit: 'N·m', accuracyOfReading: 0 },
      });
      expect(setting?.value).toBe(mark);
    }
  });
});

describe('an offset head', () => {
  const withHead = (lever: number, length: number, angleDeg: number) =>
    answer({
      callout: { min: '20 N·m', max: '30 N·m' },
      tool: { min: 1, max: 100, increment: 1, unit: 'N·m', accuracyOfReading: 0.04, lever: `${lever} mm` },
      offsetHead: { length: `${length} mm`, angleDeg },
    }).correction;

  it('turned back undoes one straight out', () => {
    for (let length = 0; length < 300; length += 7)
      expect(withHead(300, length, 0) * withHead(300 + length, length, 180)).toBeCloseTo(1, 12);
  });

  it('square to the lever changes nothing, to the last bit', () => {
    for (const angleDeg of [90, -90, 270, -270]) expect(withHead(317, 123, angleDeg)).toBe(1);
  });

  it('is the same on both sides and lowers the setting the more it stands out', () => {
    let before = 0;
    for (let angleDeg = 0; angleDeg <= 180; angleDeg += 5) {
      const correction = withHead(300, 100, angleDeg);
      expect(withHead(300, 100, -angleDeg)).toBe(correction);
      expect(withHead(300, 100, 360 - angleDeg)).toBeCloseTo(correction, 12);
      expect(correction).toBeGreaterThan(before);
      before = correction;
    }
  });
});
