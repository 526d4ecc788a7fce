import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import {
  acrossCornersMinMm,
  acrossCornersMm,
  freeAngleDeg,
  heavyHexAcrossFlatsMm,
} from '../../../renderer/engine/socket/index.ts';

const degree = Math.PI / 180;

/** Whether a sharp hexagon turned by an angle lies inside another: every corner behind every side, by coordinates. */
function liesInside(headMm: number, openingMm: number, turnedDeg: number): boolean {
  const radius = headMm / Math.sqrt(3);
  return [0, 1, 2, 3, 4, 5].every((corner) => {
    const at = (30 + 60 * corner + turnedDeg) * degree;
    return [0, 1, 2, 3, 4, 5].every((side) => radius * Math.cos(at - 60 * side * degree) <= openingMm / 2 + 1e-9);
  });
}

describe('free angle of a 6-point opening', () => {
  it('is how far the head can be turned inside it before a corner meets a side', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 3, max: 80, noNaN: true }),
        fc.double({ min: 1.0005, max: 1.15, noNaN: true }),
        (headMm, ratio) => {
          const openingMm = headMm * ratio;
          const free = freeAngleDeg({ openingMm, headMm });
          expect(liesInside(headMm, openingMm, free - 0.01)).toBe(true);
          expect(liesInside(headMm, openingMm, -free + 0.01)).toBe(true);
          expect(liesInside(headMm, openingMm, free + 0.01)).toBe(false);
        },
      ),
    );
  });

  it('is 0 in an opening of the head itself and 30 where the opening reaches the corners', () => {
    expect(freeAngleDeg({ openingMm: 16, headMm: 16 })).toBe(0);
    expect(freeAngleDeg({ openingMm: 16 * (1 - 1e-12), headMm: 16 })).toBe(0);
    expect(freeAngleDeg({ openingMm: acrossCornersMm({ acrossFlatsMm: 16 }), headMm: 16 })).toBeCloseTo(30, 6);
    expect(freeAngleDeg({ openingMm: 30, headMm: 16 })).toBe(30);
    expect(freeAngleDeg({ openingMm: 16.2, headMm: 16 })).toBeCloseTo(1.26477, 5);
  });

  it.each([
    [15.9, 16],
    [16, 0],
    [16, -1],
    [16, Number.NaN],
    [Number.NaN, 16],
  ])('is refused for an opening of %s mm on a head of %s mm', (openingMm, headMm) => {
    expect(() => freeAngleDeg({ openingMm, headMm })).toThrow(RefusedError);
  });
});

describe('corners of a hexagon', () => {
  it('measure twice the radius of the corners', () => {
    expect(acrossCornersMm({ acrossFlatsMm: Math.sqrt(3) })).toBeCloseTo(2, 12);
  });

  it('measure at least the product rule, which is under the sharp hexagon', () => {
    expect(acrossCornersMinMm({ acrossFlatsMinMm: 100, rule: 'iso-grade-a-b' })).toBeCloseTo(113, 9);
    expect(acrossCornersMinMm({ acrossFlatsMinMm: 100, rule: 'asme-external' })).toBeCloseTo(114, 9);
    expect(acrossCornersMinMm({ acrossFlatsMinMm: 100, rule: 'iso-socket' })).toBeCloseTo(114, 9);
    expect(acrossCornersMm({ acrossFlatsMm: 100 })).toBeGreaterThan(115);
  });

  it('are measured of the smallest keys too', () => {
    expect(acrossCornersMm({ acrossFlatsMm: Math.sqrt(3) / 4 })).toBeCloseTo(0.5, 12);
  });

  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])('are refused for %s mm across flats', (mm) => {
    expect(() => acrossCornersMm({ acrossFlatsMm: mm })).toThrow(RefusedError);
    expect(() => acrossCornersMinMm({ acrossFlatsMinMm: mm, rule: 'asme-external' })).toThrow(RefusedError);
  });
});

describe('heavy hex width', () => {
  it('is refused outside the diameters held', () => {
    expect(heavyHexAcrossFlatsMm({ nominalDiameterMm: 12.7 })).toBeCloseTo(22.225, 9);
    for (const mm of [11.1125, 38.2, Number.NaN]) {
      expect(() => heavyHexAcrossFlatsMm({ nominalDiameterMm: mm })).toThrow(RefusedError);
    }
  });
});
