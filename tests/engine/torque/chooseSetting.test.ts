import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import type { ResolvedTorque } from '../../../renderer/engine/plan/resolved.ts';
import { chooseSetting } from '../../../renderer/engine/torque/chooseSetting.ts';

function scale(
  minNm: number,
  maxNm: number,
  increment: number | null,
  settings: number[] | null = null,
  accuracy = 0.04,
): ResolvedTorque {
  const torque = (value: number) => ({ value, unit: 'N·m' as const, nm: value });
  return {
    minNm,
    maxNm,
    increment: increment === null ? null : torque(increment),
    settings: settings?.map(torque) ?? null,
    accuracyOfReading: accuracy,
    loosens: false,
  };
}

const choose = (torque: ResolvedTorque, minNm: number, maxNm: number, rangeShareMin = 0) =>
  chooseSetting({ torque, aim: { minNm, maxNm }, rangeShareMin });

describe('the setting whose applied band lies furthest inside the aim', () => {
  it('is the middle of the aim where the scale has it', () => {
    expect(choose(scale(10, 100, 0.5), 20, 30)).toMatchObject({
      setting: { value: 25, unit: 'N·m' },
      conforms: true,
      marginNm: 4,
    });
  });

  it('is the lower of two that are as good', () => {
    // 24 and 26 lie 1 from the middle; at accuracy 0 their margins are both 4.
    expect(choose(scale(10, 100, null, [26, 24], 0), 20, 30)?.setting.value).toBe(24);
    expect(choose(scale(2, 100, 2, null, 0), 20, 30)?.setting.value).toBe(24);
  });

  it('conforms with the applied band ending exactly on the limits', () => {
    expect(choose(scale(10, 100, 25), 24, 26)).toMatchObject({ conforms: true });
    expect(choose(scale(10, 100, 25), 24.01, 26)).toMatchObject({ conforms: false });
  });

  it('stays within the range and the project’s share of it', () => {
    expect(choose(scale(10, 24, 0.5), 20, 30)?.setting.value).toBe(24);
    expect(choose(scale(10, 100, 1), 10, 14, 0.2)).toMatchObject({ setting: { value: 20 }, conforms: false });
    expect(choose(scale(10, 100, null, [12]), 10, 14, 0.2)).toBeNull();
    expect(choose(scale(10, 12, 25), 10, 14)).toBeNull();
  });

  it('writes 0.3 for the third multiple of 0.1', () => {
    expect(choose(scale(0.1, 1, 0.1), 0.28, 0.32)?.setting.value).toBe(0.3);
  });

  it('is beaten by no other setting of the scale', () => {
    const whole = (max: number) => fc.integer({ min: 1, max });
    fc.assert(
      fc.property(
        whole(50),
        whole(400),
        whole(400),
        whole(40),
        fc.integer({ min: 0, max: 10 }),
        (min, a, b, step, percent) => {
          const torque = scale(min, min + 200, step / 4, null, percent / 100);
          const [low, high] = [Math.min(a, b) / 2, Math.max(a, b) / 2];
          const chosen = choose(torque, low, high);
          const all = Array.from({ length: 2000 }, (_, n) => ((n + 1) * step) / 4).filter(
            (nm) => nm >= min && nm <= min + 200,
          );
          const margin = (nm: number) => Math.min(nm * (1 - percent / 100) - low, high - nm * (1 + percent / 100));
          if (all.length === 0) return chosen === null;
          return chosen !== null && all.every((nm) => margin(nm) <= chosen.marginNm + 1e-6);
        },
      ),
      { numRuns: 500, seed: 7 },
    );
  });
});
