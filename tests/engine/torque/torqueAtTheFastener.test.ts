import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { chooseSetting } from '../../../renderer/engine/torque/chooseSetting.ts';
import { intervalDecision } from '../../../renderer/engine/torque/decide.ts';
import { offsetCorrection } from '../../../renderer/engine/torque/offsetHead.ts';
import { runningLimits, runningLimitsAtBest } from '../../../renderer/engine/torque/runningLimits.ts';
import { appliedBand, type TorqueScale } from '../../../renderer/engine/torque/scale.ts';
import { polarMomentMm4, twistDeg } from '../../../renderer/engine/torque/windUp.ts';

const band = (minNm: number, maxNm: number) => ({ minNm, maxNm });
const scaleWith = (accuracyOfReading: number, accuracyOfFullScale = 0, step = 0.001): TorqueScale => ({
  minNm: 0,
  maxNm: 100,
  increment: { value: step, unit: 'N·m', nm: step },
  settings: null,
  accuracyOfReading,
  accuracyOfFullScale,
});

describe('the interval rule', () => {
  it.each([
    ['inside', 24, 26, 'conforming'],
    ['on both ends', 20, 30, 'conforming'],
    ['on both ends, a rounding error out', 20 - 1e-9, 30 + 1e-9, 'conforming'],
    ['out at the top', 24, 30.001, 'indeterminate'],
    ['out at the bottom', 19.999, 26, 'indeterminate'],
    ['out at both', 19, 31, 'indeterminate'],
    ['touching from below', 18, 20, 'indeterminate'],
    ['touching from above', 30, 32, 'indeterminate'],
    ['below', 18, 19.999, 'nonconforming'],
    ['above', 30.001, 32, 'nonconforming'],
  ])('%s: %d to %d is %3$s', (_what, from, to, decision) => {
    expect(intervalDecision(band(from, to), band(20, 30))).toBe(decision);
  });
});

describe('an offset head that leaves no lever', () => {
  it.each([
    [100, 100, 180],
    [100, 150, 180],
    [100, 200, 120],
    [0, 100, 0],
    [100, -1, 0],
    [Number.NaN, 100, 0],
    [100, 100, Number.NaN],
  ])('is refused: lever %d, length %d, %d°', (leverMm, lengthMm, angleDeg) => {
    expect(() => offsetCorrection({ leverMm, lengthMm, angleDeg })).toThrow(/must be above 0/);
  });

  it('is told from one that leaves a ten-millionth of it', () => {
    expect(offsetCorrection({ leverMm: 100, lengthMm: 99.999_99, angleDeg: 180 })).toBeCloseTo(1e7, -1);
  });
});

describe('the running torque above which a mistake about it no longer conforms', () => {
  const cases = fc.record({
    min: fc.integer({ min: 10, max: 40 }),
    width: fc.integer({ min: 4, max: 40 }),
    reading: fc.integer({ min: 0, max: 8 }),
    full: fc.integer({ min: 0, max: 2 }),
    correction: fc.constantFrom(1, 0.75, 2),
  });

  it('is where the bands themselves stop lying inside, at the chosen setting', () => {
    fc.assert(
      fc.property(cases, ({ min, width, reading, full, correction }) => {
        const scale = scaleWith(reading / 100, full / 100);
        const callout = band(min, min + width);
        const chosen = chooseSetting({ torque: scale, aim: callout, rangeShareMin: 0, correction });
        if (chosen === null || !chosen.conforms) return true;
        const limits = runningLimits({ scale, correction, callout, appliedNm: chosen.nm / correction });
        const seats = (runningNm: number) => {
          const { minNm, maxNm } = chosen.applied;
          return intervalDecision(band(minNm - runningNm, maxNm - runningNm), callout) === 'conforming';
        };
        const added = (runningNm: number) => {
          const setNm = chosen.nm + runningNm * correction;
          return intervalDecision(appliedBand({ scale, setNm, correction }), callout) === 'conforming';
        };
        const { ignoredNm, addedNm } = limits;
        const off = 1e-5;
        const under = (limitNm: number) => Math.max(0, limitNm - off);
        return seats(under(ignoredNm)) && !seats(ignoredNm + off) && added(under(addedNm)) && !added(addedNm + off);
      }),
      { seed: 3, numRuns: 1000 },
    );
  });

  it('at best is where no setting is left', () => {
    fc.assert(
      fc.property(cases, ({ min, width, reading, full, correction }) => {
        const scale = scaleWith(reading / 100, full / 100, 0.0005);
        const callout = band(min, min + width);
        const { ignoredNm, addedNm } = runningLimitsAtBest({ scale, correction, callout });
        if (ignoredNm < 0.1 || addedNm < 0.1) return true;
        // Known only as 0 to R: the aim is [min + R, max].
        const found = (runningNm: number) =>
          chooseSetting({
            torque: { ...scale, maxNm: scale.maxNm },
            aim: band(callout.minNm + runningNm, callout.maxNm),
            rangeShareMin: 0,
            correction,
          });
        const before = found(ignoredNm - 0.01);
        // The tool's own range may end it earlier.
        if (before === null || before.nm > 99) return true;
        return before.conforms && found(ignoredNm + 0.01)?.conforms === false;
      }),
      { seed: 4, numRuns: 1000 },
    );
  });

  it('is 4 N·m left out and 3.846 N·m added for 20 to 30 N·m at 25 N·m ± 4 %', () => {
    const x = { scale: scaleWith(0.04), correction: 1, callout: band(20, 30) };
    expect(runningLimits({ ...x, appliedNm: 25 })).toEqual({
      ignoredNm: 4,
      addedNm: expect.closeTo(30 / 1.04 - 25, 12) as number,
    });
    expect(runningLimitsAtBest(x).ignoredNm).toBeCloseTo((30 * 0.96) / 1.04 - 20, 12);
    expect(runningLimitsAtBest(x).addedNm).toBeCloseTo(30 / 1.04 - 20 / 0.96, 12);
  });
});

describe('wind-up', () => {
  // Worked by hand: J = π/32·12⁴ = 2035.752 mm⁴; φ = 100 000·250/(79 300·2035.752) rad = 8.8729°.
  it('of 250 mm of round bar of 12 mm under 100 N·m is 8.873°', () => {
    const polar = polarMomentMm4({ outsideMm: 12, insideMm: 0 });
    expect(polar).toBeCloseTo(2035.752, 3);
    const part = { lengthMm: 250, shearModulusMPa: 79_300, polarMomentMm4: polar };
    expect(twistDeg({ torqueNm: 100, part })).toBeCloseTo(8.8729, 3);
  });

  it('grows with torque and length, and a bore takes little away', () => {
    const part = {
      lengthMm: 100,
      shearModulusMPa: 80_000,
      polarMomentMm4: polarMomentMm4({ outsideMm: 12, insideMm: 6 }),
    };
    const one = twistDeg({ torqueNm: 50, part });
    expect(twistDeg({ torqueNm: 100, part })).toBeCloseTo(2 * one, 12);
    expect(twistDeg({ torqueNm: 50, part: { ...part, lengthMm: 200 } })).toBeCloseTo(2 * one, 12);
    expect(part.polarMomentMm4 / polarMomentMm4({ outsideMm: 12, insideMm: 0 })).toBeCloseTo(15 / 16, 12);
  });
});
