import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import {
  headLimits,
  headOfThread,
  heldHeads,
  heldOpenings,
  openingByFormula,
  openingLimits,
} from '../../../renderer/engine/socket/index.ts';

const metric = (majorMm: number) => ({ system: 'metric' as const, majorMm });
const unified = (majorIn: number) => ({ system: 'unified' as const, majorMm: majorIn * 25.4 });

describe('limits of a head', () => {
  it.each([
    ['hex', 16, undefined, 16, 15.73, 17.77, 'ISO 4014'],
    ['nut', 30, undefined, 30, 29.16, 32.95, 'ISO 4032'],
    ['hex', 30, metric(20), 30, 29.67, 33.53, 'ISO 4014'],
    ['hex-socket', 8, metric(10), 8.115, 8.025, 9.15, 'ISO 4762'],
  ] as const)('%s of %s mm', (headForm, acrossFlatsMm, thread, max, min, corners, number) => {
    const limits = headLimits({ headForm, acrossFlatsMm, ...(thread && { thread }) });
    expect(limits).toMatchObject({ acrossFlatsMaxMm: max, acrossFlatsMinMm: min, acrossCornersMinMm: corners });
    expect(limits?.citation.number).toBe(number);
    expect(limits?.citation.obtained).toBe('text found');
  });

  it('of an inch cap screw are the printed inches in millimetres', () => {
    const limits = headLimits({ headForm: 'hex', acrossFlatsMm: 19.05, thread: unified(0.5) });
    expect(limits?.acrossFlatsMaxMm).toBeCloseTo(0.75 * 25.4, 9);
    expect(limits?.acrossFlatsMinMm).toBeCloseTo(0.736 * 25.4, 9);
    expect(limits?.acrossCornersMinMm).toBeCloseTo(0.84 * 25.4, 9);
    expect(limits?.citation.key).toBe('hex-cap-screw-asme-b18.2.1');
  });

  it.each([
    ['a thread whose head is another: M10 with the DIN width', 'hex', 17, metric(10)],
    ['a thread whose head is another: 16 mm on M12', 'hex', 16, metric(12)],
    ['an inch thread under a metric head', 'hex', 16, unified(0.625)],
    ['ISO 272 alone, which prints no limits: M18', 'hex', 27, metric(18)],
    ['heavy hex, nominal widths only', 'heavy-hex', 31.75, unified(0.75)],
    ['the M14 hexagon socket, whose limits were not readable', 'hex-socket', 12, metric(14)],
    ['inch hexagon sockets', 'hex-socket', 4.7625, unified(0.25)],
    ['twelve-point heads', 'twelve-point', 16, undefined],
    ['square heads', 'square', 16, undefined],
    ['a size between two printed ones', 'hex', 17.5, undefined],
  ] as const)('are null for %s', (_, headForm, acrossFlatsMm, thread) => {
    expect(headLimits({ headForm, acrossFlatsMm, ...(thread && { thread }) })).toBeNull();
  });

  it('are one pair for each form and width, so that the width alone can be asked for', () => {
    const seen = new Map<string, string>();
    for (const head of heldHeads) {
      if (head.limits === null) continue;
      const name = `${head.headForm} ${Math.round(head.nominalMm * 100)}`;
      const limits = JSON.stringify(head.limits);
      expect(seen.get(name) ?? limits).toBe(limits);
      seen.set(name, limits);
    }
    expect(seen.size).toBeGreaterThan(60);
  });
});

describe('the head of a thread', () => {
  it.each([
    ['hex', metric(10), undefined, '16 mm', 'ISO 4014'],
    ['hex', metric(10), 'DIN 931', '17 mm', 'DIN 931 / DIN 933 against ISO 4014 / ISO 4017'],
    ['hex', metric(10), 'iso272', '16 mm', 'ISO 272'],
    ['hex', metric(10), 'ISO 4017', '16 mm', 'DIN 931 / DIN 933 against ISO 4014 / ISO 4017'],
    ['hex', metric(22), 'ISO 4014', '34 mm', 'DIN 931 / DIN 933 against ISO 4014 / ISO 4017'],
    ['hex', metric(22), 'din933', '32 mm', 'DIN 931 / DIN 933 against ISO 4014 / ISO 4017'],
    ['hex', metric(22), undefined, '34 mm', 'ISO 272'],
    ['hex', metric(16), 'Table A-29', '24 mm', 'Table A-29'],
    ['heavy-hex', unified(0.75), 'ANSI B18.2.1', '1-1/4 in', 'ASME B18.2.1 / B18.2.2 / B18.2.6'],
    ['hex', metric(18), undefined, '27 mm', 'ISO 272'],
    ['nut', metric(36), undefined, '55 mm', 'ISO 4032'],
    ['hex', unified(0.5), undefined, '3/4 in', 'ASME B18.2.1'],
    ['heavy-hex', unified(0.75), undefined, '1-1/4 in', 'ASME B18.2.1 / B18.2.2 / B18.2.6'],
    ['heavy-hex', metric(24), undefined, '41 mm', 'Table A-29'],
    ['hex-socket', metric(8), undefined, '6 mm', 'ISO 4762'],
    ['hex-socket', unified(0.073), undefined, '1/16 in', 'ASME B18.3'],
    ['hex-socket', unified(1), undefined, '3/4 in', 'ASME B18.3'],
  ] as const)('%s on %o by %s is %s', (headForm, thread, document, nominal, number) => {
    const head = headOfThread({ headForm, thread, ...(document && { document }) });
    expect(head.nominal).toBe(nominal);
    expect(head.citation.number).toBe(number);
  });

  it.each([
    ['hex', metric(70), undefined, 'M64'],
    ['twelve-point', metric(10), undefined, 'hex, heavy-hex, nut and hex-socket'],
    ['square', metric(10), undefined, 'hex, heavy-hex, nut and hex-socket'],
    ['hex', metric(20), 'DIN 931', 'M22'],
    ['hex', metric(10), 'ISO 691', 'DIN 931'],
    ['hex', metric(10), 'ISO 4032', 'ISO 4014'],
    ['nut', metric(10), 'DIN 931', 'ISO 4032'],
    ['nut', unified(0.5), undefined, 'M16'],
  ] as const)('%s on %o by %s is refused, naming what is held', (headForm, thread, document, held) => {
    let refused: unknown;
    try {
      headOfThread({ headForm, thread, ...(document && { document }) });
    } catch (error) {
      refused = error;
    }
    expect(refused).toBeInstanceOf(RefusedError);
    expect((refused as RefusedError).refusal.code).toBe('not-held');
    expect((refused as RefusedError).message).toContain(held);
  });
});

describe('limits of an opening', () => {
  it('are the printed ones', () => {
    const limits = openingLimits({ nominalMm: 15.875 });
    expect(limits?.minMm).toBeCloseTo(0.629 * 25.4, 9);
    expect(limits?.maxMm).toBeCloseTo(0.636 * 25.4, 9);
    expect(limits?.nominal).toBe('5/8');
    expect(limits?.citation.number).toBe('ASME/ANSI B18.2.2');
  });

  it.each([13, 16, 19, 27, 30, 5.55625 /* 7/32 in, not printed */, 85])('are null for %s mm', (nominalMm) => {
    expect(openingLimits({ nominalMm })).toBeNull();
  });

  it('are held for each printed size once', () => {
    expect(heldOpenings).toHaveLength(35);
    expect(new Set(heldOpenings.map((opening) => opening.nominalMm)).size).toBe(35);
  });

  it('by formula are refused outside the printed sizes', () => {
    expect(openingByFormula({ widthIn: 1 }).minMm).toBeCloseTo(1.006 * 25.4, 9);
    for (const widthIn of [0.152, 0.156, 3.126, Number.NaN, -1])
      expect(() => openingByFormula({ widthIn })).toThrow(RefusedError);
    for (const widthIn of [5 / 32, 3.125]) expect(openingByFormula({ widthIn }).minMm).toBeGreaterThan(widthIn * 25.4);
  });

  it('by formula are 1.005 W + 0.001 in at least, with a tolerance of 0.005 W + 0.004 in', () => {
    const { minMm, maxMm } = openingByFormula({ widthIn: 2 });
    expect(minMm).toBeCloseTo(2.011 * 25.4, 9);
    expect(maxMm).toBeCloseTo(2.025 * 25.4, 9);
  });
});
