import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { fitAtLimits, fitOf } from '../../../renderer/engine/socket/index.ts';

type Head = Parameters<typeof fitAtLimits>[0]['head'];

const head: Head = { maxMm: 10, minMm: 9.8, cornersMinMm: 11.1 };
const fit = (minMm: number, maxMm: number, openingForm: 'hex6' | 'hex12' = 'hex6', on = head) =>
  fitAtLimits({ head: on, opening: { minMm, maxMm }, openingForm });

describe('an opening at its limits', () => {
  it('goes on where its least reaches the greatest head, equal included', () => {
    expect(fit(10.1, 10.3)).toMatchObject({ goesOn: true, slips: false });
    expect(fit(10, 10.3).goesOn).toBe(true);
    expect(fit(10 * (1 - 1e-10), 10.3).goesOn).toBe(true);
    expect(fit(9.999, 10.3).goesOn).toBe(false);
  });

  it('may be smaller than a millimetre', () => {
    expect(fit(0.72, 0.74, 'hex6', { maxMm: 0.71, minMm: 0.7, cornersMinMm: 0.79 }).goesOn).toBe(true);
  });

  it('clears by its least less the greatest head', () => {
    expect(fit(10.1, 10.3).clearanceMm).toBeCloseTo(0.1, 12);
    expect(fit(10.1, 10.3).clearanceMaxMm).toBeCloseTo(0.5, 12);
    expect(fit(9.9, 10.3).clearanceMm).toBeCloseTo(-0.1, 12);
  });

  it('slips as soon as its greatest reaches the least corners', () => {
    expect(fit(10.1, 11.0999).slips).toBe(false);
    expect(fit(10.1, 11.1).slips).toBe(true);
    expect(fit(10.1, 11.1, 'hex6', { ...head, cornersMinMm: null }).slips).toBeNull();
  });

  it('has its free angle from the tightest pair to the loosest', () => {
    const { freeAngleDeg } = fit(10.1, 10.3);
    expect(freeAngleDeg?.min).toBeGreaterThan(0);
    expect(freeAngleDeg?.max).toBeGreaterThan(freeAngleDeg?.min ?? 0);
    expect(fit(9.9, 10.3).freeAngleDeg?.min).toBe(0);
    expect(fit(9.5, 9.7).freeAngleDeg).toBeNull();
  });

  it('of twelve points is not judged by the rule for six', () => {
    expect(fit(10.1, 11.5, 'hex12')).toMatchObject({ goesOn: true, freeAngleDeg: null, slips: null });
  });

  it('never goes on with less than no clearance, and never the other way about', () => {
    const mm = fc.double({ min: 5, max: 50, noNaN: true });
    fc.assert(
      fc.property(mm, mm, mm, mm, (a, b, c, d) => {
        const on = { maxMm: Math.max(a, b), minMm: Math.min(a, b), cornersMinMm: Math.min(a, b) * 1.13 };
        const found = fit(Math.min(c, d), Math.max(c, d), 'hex6', on);
        if (found.clearanceMm > 1e-6) expect(found.goesOn).toBe(true);
        if (found.clearanceMm < -1e-6) expect(found.goesOn).toBe(false);
        expect(found.clearanceMaxMm).toBeGreaterThanOrEqual(found.clearanceMm);
        if (found.freeAngleDeg) expect(found.freeAngleDeg.min).toBeLessThanOrEqual(found.freeAngleDeg.max);
      }),
    );
  });

  it.each([
    [10.3, 10.1, 'contradiction'],
    [0, 10, 'out-of-range'],
    [Number.NaN, 10, 'out-of-range'],
    [10, Number.POSITIVE_INFINITY, 'out-of-range'],
  ])('of %s to %s mm are refused', (minMm, maxMm, code) => {
    let refused: unknown;
    try {
      fit(minMm, maxMm);
    } catch (error) {
      refused = error;
    }
    expect(refused).toBeInstanceOf(RefusedError);
    expect((refused as RefusedError).refusal.code).toBe(code);
  });
});

describe('a nominal opening on a nominal head', () => {
  it('cites both tables', () => {
    const answer = fitOf({ headForm: 'hex', acrossFlatsMm: 19.05, openingForm: 'hex6', openingMm: 19.05 });
    expect(answer.fit?.goesOn).toBe(true);
    expect(answer.fit?.sources.map((source) => source.number)).toEqual(['ASME B18.2.1', 'ASME/ANSI B18.2.2']);
    expect(answer.reason).toBeNull();
  });

  it.each([
    [
      'a metric opening',
      { headForm: 'hex', acrossFlatsMm: 16, openingForm: 'hex6', openingMm: 16 },
      'hex6 opening of 16 mm',
    ],
    [
      'a head without limits',
      { headForm: 'hex', acrossFlatsMm: 27, openingForm: 'hex6', openingMm: 26.9875 },
      'hex head 27 mm',
    ],
    [
      'a key',
      { headForm: 'hex-socket', acrossFlatsMm: 8, openingForm: 'hexKey', openingMm: 8 },
      'hexKey opening of 8 mm',
    ],
    [
      'a key of an inch opening’s size',
      { headForm: 'hex-socket', acrossFlatsMm: 19, openingForm: 'hexKey', openingMm: 19.05 },
      'hexKey opening of 19.05 mm',
    ],
  ] as const)('has no answer for %s, and says what is lacking', (_, x, lacking) => {
    const answer = fitOf(x);
    expect(answer.fit).toBeNull();
    expect(answer.reason).toContain('no published value held');
    expect(answer.reason).toContain(lacking);
  });

  it('has no answer where the form does not act on the head', () => {
    const answer = fitOf({ headForm: 'hex-socket', acrossFlatsMm: 10, openingForm: 'hex6', openingMm: 9.525 });
    expect(answer).toEqual({ fit: null, reason: 'a hex6 opening does not act on a hex-socket head' });
  });

  it('takes the limits of the thread’s own head where it is given', () => {
    const x = { headForm: 'nut', acrossFlatsMm: 30, openingForm: 'hex6', openingMm: 31.75 } as const;
    expect(fitOf({ ...x, thread: { system: 'metric', majorMm: 20 } }).fit?.headMinMm).toBe(29.16);
    expect(fitOf({ ...x, headForm: 'hex' }).fit?.headMinMm).toBe(29.67);
    expect(fitOf({ ...x, thread: { system: 'metric', majorMm: 16 } }).fit).toBeNull();
  });
});
