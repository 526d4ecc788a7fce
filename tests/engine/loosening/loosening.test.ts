import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import {
  isSelfLocking,
  releaseThreadArmMm,
  releaseTorqueNm,
} from '../../../renderer/engine/loosening/releaseTorque.ts';
import { rootShearTorqueNm } from '../../../renderer/engine/loosening/rootShear.ts';
import { stopLimit } from '../../../renderer/engine/loosening/stopLimit.ts';
import { equivalentMPa, screwThreadArmMm } from '../../../renderer/engine/preload/formula/index.ts';

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const m10 = { meanDiameterMm: 9.0257, leadMm: 1.5, halfAngleDeg: 30, friction: 0.12 };
const face = { friction: 0.12, bearingDiameterMm: 13 };

describe('release torque', () => {
  it('is below the tightening torque, by about the pitch’s work', () => {
    fc.assert(
      fc.property(between(0.02, 0.4), between(0.2, 3), (friction, leadMm) => {
        const x = { ...m10, leadMm, friction };
        expect(releaseThreadArmMm(x)).toBeLessThan(screwThreadArmMm(x));
      }),
    );
  });

  it('is the screw equation with the lead turned round', () => {
    const tan = 1.5 / (Math.PI * 9.0257);
    const f = 0.12 / Math.cos(Math.PI / 6);
    expect(releaseThreadArmMm(m10)).toBeCloseTo((9.0257 / 2) * Math.tan(Math.atan(f) - Math.atan(tan)), 12);
  });

  it('has the running torque on top', () => {
    const x = { preloadN: 20_000, screw: m10, bearing: face };
    expect(releaseTorqueNm({ ...x, runningNm: 3 }) - releaseTorqueNm({ ...x, runningNm: 0 })).toBeCloseTo(3, 12);
    expect(releaseTorqueNm({ ...x, preloadN: 0, runningNm: 3 })).toBe(3);
  });

  it('of a thread that does not hold itself is below 0 without a bearing face', () => {
    const fast = { meanDiameterMm: 20, leadMm: 20, halfAngleDeg: 0, friction: 0.1 };
    // A square thread whose friction is its lead angle's tangent: at rest, and nothing to hold it there.
    const level = { meanDiameterMm: 20, leadMm: 5, halfAngleDeg: 0, friction: 5 / (Math.PI * 20) };
    expect(isSelfLocking(level)).toBe(false);
    expect(isSelfLocking({ ...level, friction: level.friction * (1 + 1e-12) })).toBe(true);
    expect(isSelfLocking(fast)).toBe(false);
    const bearing = { friction: 0.1, bearingDiameterMm: 0 };
    expect(releaseTorqueNm({ preloadN: 1000, screw: fast, bearing, runningNm: 0 })).toBeLessThan(0);
  });

  it('a thread holds itself exactly while its release arm is above 0', () => {
    fc.assert(
      fc.property(between(0.01, 0.5), between(0.1, 40), between(0, 30), (friction, leadMm, halfAngleDeg) => {
        const x = { meanDiameterMm: 20, leadMm, halfAngleDeg, friction };
        expect(isSelfLocking(x)).toBe(releaseThreadArmMm(x) > 0);
      }),
    );
  });

  it.each([
    ['preload', { preloadN: -1, runningNm: 0 }],
    ['running torque', { preloadN: 1, runningNm: -1 }],
    ['no number', { preloadN: Number.NaN, runningNm: 0 }],
  ])('refuses a bad %s', (_name, bad) => {
    expect(() => releaseTorqueNm({ screw: m10, bearing: face, ...bad })).toThrow(RefusedError);
  });
});

describe('root shear', () => {
  const root = { rootDiameterMm: 8.16, yieldMPa: 640 };
  const carriedN = (Math.PI / 4) * 8.16 ** 2 * 640;

  it('at any preload, tension and torsion together are just at yield', () => {
    fc.assert(
      fc.property(between(0, 0.999), (share) => {
        const preloadN = share * carriedN;
        const shearMPa = (16 * 1000 * rootShearTorqueNm({ ...root, preloadN })) / (Math.PI * 8.16 ** 3);
        const tensionMPa = preloadN / ((Math.PI / 4) * 8.16 ** 2);
        expect(equivalentMPa({ tensionMPa, shearMPa })).toBeCloseTo(640, 8);
      }),
    );
  });

  it('is nothing at the preload that yields the root, and refused above it', () => {
    expect(rootShearTorqueNm({ ...root, preloadN: carriedN })).toBe(0);
    expect(() => rootShearTorqueNm({ ...root, preloadN: carriedN * 1.001 })).toThrow(/yields without any torque/);
  });

  it.each([
    ['root', { ...root, rootDiameterMm: 0, preloadN: 0 }],
    ['yield', { ...root, yieldMPa: -1, preloadN: 0 }],
    ['preload', { ...root, preloadN: -1 }],
    ['no number', { ...root, preloadN: Number.NaN }],
  ])('refuses a bad %s', (_name, bad) => {
    expect(() => rootShearTorqueNm(bad)).toThrow(RefusedError);
  });
});

describe('stop limit', () => {
  it('is the least of all, and names who sets it', () => {
    const parts = [
      { name: 'breaker bar', ratedNm: 200 },
      { name: 'extension', ratedNm: 120 },
      { name: 'socket', ratedNm: 150 },
    ];
    expect(stopLimit(parts)).toEqual({ torqueNm: 120, setBy: 'extension', reason: null });
    expect(stopLimit([...parts, { name: 'root', ratedNm: 30 }]).setBy).toBe('root');
  });

  it('of equals names the first', () => {
    expect(
      stopLimit([
        { name: 'bar', ratedNm: 50 },
        { name: 'socket', ratedNm: 50 },
      ]).setBy,
    ).toBe('bar');
  });

  it('is not there where any rating is not held, and says whose', () => {
    const told = stopLimit([
      { name: 'bar', ratedNm: 50 },
      { name: 'old socket', ratedNm: null },
    ]);
    expect(told).toEqual({ torqueNm: null, setBy: null, reason: 'no stop limit: no torque is held for old socket' });
  });

  it('of nothing is none', () => {
    expect(stopLimit([]).torqueNm).toBeNull();
  });
});
