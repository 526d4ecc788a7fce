import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { heldHeads, heldOpenings, hexalobularDrive, socketFor } from '../../../renderer/engine/socket/index.ts';
import type { HeadForm } from '../../../shared-types/plan.ts';

const socket = (thread: string, headForm: HeadForm = 'hex', standard?: string) =>
  socketFor({ thread, headForm, ...(standard === undefined ? {} : { standard }) });

function refusal(run: () => unknown) {
  try {
    run();
  } catch (error) {
    if (error instanceof RefusedError) return error.refusal;
    throw error;
  }
  throw new Error('nothing was refused');
}

describe('the socket of a metric head', () => {
  it('is named by its width, and no limits of metric openings are made up', () => {
    expect(socket('M10')).toMatchObject({
      nominal: '16 mm',
      nominalMm: 16,
      head: { acrossFlatsMaxMm: 16, acrossFlatsMinMm: 15.73, acrossCornersMinMm: 17.77, referenceAMm: null },
      opening: null,
      openingByFormula: null,
      freeAngleDeg: null,
      slips: null,
      source: { number: 'ISO 4014' },
    });
  });

  it('is that of the diameter: fine pitch, left hand and class change nothing', () => {
    for (const thread of ['M10x1.25', 'M10x1', 'M10-6g', 'M10 LH']) expect(socket(thread)).toEqual(socket('M10'));
  });

  it('is refused for a diameter that no table has', () => {
    for (const thread of ['M11x1.5', 'M70x6', 'M3.5'])
      expect(refusal(() => socket(thread))).toMatchObject({ code: 'not-held', field: 'thread' });
  });

  it('follows the standard named: DIN and ISO widths differ at M10, M12, M14 and M22', () => {
    const widths = (standard: string) => ['M10', 'M12', 'M14', 'M22'].map((m) => socket(m, 'hex', standard).nominalMm);
    expect(widths('DIN 931')).toEqual([17, 19, 22, 32]);
    expect(widths('din 933')).toEqual([17, 19, 22, 32]);
    expect(widths('ISO 4017')).toEqual([16, 18, 21, 34]);
    expect(widths('ISO 4014')).toEqual([16, 18, 21, 34]);
    expect(refusal(() => socket('M16', 'hex', 'DIN 931')).message).toContain('M10, M12, M14, M22');
  });

  it('keeps nut and bolt apart: the M20 nut may be narrower', () => {
    expect(socket('M20', 'nut').head.acrossFlatsMinMm).toBe(29.16);
    expect(socket('M20', 'hex').head.acrossFlatsMinMm).toBe(29.67);
  });
});

describe('the socket of an inch head', () => {
  it('has the printed opening, how far it turns, and the formula beside', () => {
    const found = socket('1/2-13');
    expect(found).toMatchObject({ nominal: '3/4 in', nominalMm: 19.05, slips: false });
    expect(found.opening).toMatchObject({ minMm: 19.177, maxMm: 19.3802, source: { number: 'ASME/ANSI B18.2.2' } });
    expect(found.openingByFormula?.minMm).toBeCloseTo((1.005 * 0.75 + 0.001) * 25.4, 9);
    expect(found.freeAngleDeg?.min).toBeGreaterThan(0);
  });

  it('has the formula alone where the appendix prints no such size, and nothing beyond its range', () => {
    const found = socket('1-3/4-5');
    expect(found).toMatchObject({ nominal: '2-5/8 in', opening: null, freeAngleDeg: null, slips: null });
    expect(found.openingByFormula?.maxMm).toBeGreaterThan(found.nominalMm ?? 0);
    expect(socket('1/4-20', 'hex-socket').openingByFormula).toBeNull();
  });

  it('of a number size is held for hexagon sockets alone', () => {
    expect(socket('#10-32', 'hex-socket')).toMatchObject({ nominal: '5/32 in', nominalMm: 3.96875, opening: null });
    expect(socket('#2-56', 'hex-socket')).toMatchObject({ nominal: '5/64 in', nominalMm: 1.984375 });
    expect(refusal(() => socket('#10-32')).field).toBe('thread');
    expect(refusal(() => socket('1/2-13', 'nut')).field).toBe('thread');
  });

  it('of a heavy head has an opening and no limits of the head', () => {
    expect(socket('3/4-10', 'heavy-hex')).toMatchObject({
      nominal: '1-1/4 in',
      head: { acrossFlatsMaxMm: null, acrossFlatsMinMm: null },
      opening: { minMm: 31.9278 },
      freeAngleDeg: null,
      slips: null,
      source: { obtained: 'from memory' },
    });
  });
});

describe('openings near a head', () => {
  const near = (nominal: string, ...head: Parameters<typeof socket>) =>
    socket(...head).near.find((entry) => entry.nominal === nominal);

  it('5/8 in does not go on 16 mm, 5/16 in goes on 8 mm', () => {
    expect(near('5/8 in', 'M10')).toMatchObject({
      goesOn: false,
      decidedBy: 'limits',
      interchangeableInPractice: true,
    });
    expect(near('5/16 in', 'M5')).toMatchObject({ goesOn: true, decidedBy: 'limits', slips: false });
    expect(near('5/8 in', 'M10')?.clearanceMaxMm).toBeCloseTo(0.636 * 25.4 - 15.73, 9);
    expect(near('5/8 in', 'M10')?.differenceMm).toBeCloseTo(-0.125, 9);
    const cosine = (Math.sqrt(3) * 0.322 * 25.4) / (2 * 7.78);
    expect(near('5/16 in', 'M5')?.freeAngleMaxDeg).toBeCloseTo(30 - (Math.acos(cosine) * 180) / Math.PI, 9);
  });

  it('on a head without limits are judged by the list of near sizes alone', () => {
    expect(near('3/4 in', 'M12', 'hex', 'DIN 931')).toMatchObject({
      goesOn: true,
      decidedBy: 'nominal head',
      clearanceMaxMm: null,
      freeAngleMaxDeg: null,
    });
    expect(near('1-1/16 in', 'M18')).toMatchObject({ goesOn: true, decidedBy: 'nominal head' });
    expect(near('1-5/16 in', 'M22')).toMatchObject({ goesOn: null, decidedBy: null });
  });

  it('of a hexagon socket are keys, and without a verdict', () => {
    const found = socket('M10', 'hex-socket').near;
    expect(found.map(({ nominal }) => nominal)).toEqual(['5/16 in']);
    expect(found[0]).toMatchObject({ goesOn: null, decidedBy: null, clearanceMaxMm: null });
  });

  it('are every inch opening held within 1 mm, and the other size of each pair', () => {
    for (const head of heldHeads) {
      if (head.headForm === 'hex-socket') continue;
      const { near: found } = socketFor({
        thread: head.system === 'metric' ? `${head.size}x0.2` : `${head.size}"-40`,
        headForm: head.headForm,
        standard: head.documents[0] ?? '',
      });
      const within = heldOpenings
        .filter((opening) => Math.abs(opening.nominalMm - head.nominalMm) <= 1)
        .map((opening) => `${opening.nominal} in`);
      expect(found.filter(({ nominal }) => nominal.endsWith('in')).map(({ nominal }) => nominal)).toEqual(within);
      expect(found.map(({ nominalMm }) => nominalMm)).toEqual(
        found.map(({ nominalMm }) => nominalMm).toSorted((a, b) => a - b),
      );
    }
  });
});

describe('a hexalobular drive', () => {
  it('is named by its own size; dimension A is no width across flats', () => {
    expect(socket('T30', 'hexalobular')).toEqual({
      nominal: 'T30',
      nominalMm: null,
      head: { acrossFlatsMaxMm: null, acrossFlatsMinMm: null, acrossCornersMinMm: null, referenceAMm: 5.6 },
      opening: null,
      openingByFormula: null,
      freeAngleDeg: null,
      slips: null,
      near: [],
      source: expect.objectContaining({ number: 'ISO 10664' }) as unknown,
    });
    expect(hexalobularDrive({ size: ' t 30 ' }).nominal).toBe('T30');
  });

  it.each([
    ['M6', undefined, 'thread'],
    ['T27', undefined, 'thread'],
    ['', undefined, 'thread'],
    ['T30', 'ISO 4762', 'standard'],
  ])('%j by %s is refused by its %s', (thread, standard, field) => {
    expect(refusal(() => socket(thread, 'hexalobular', standard))).toMatchObject({ code: 'not-held', field });
  });

  it('is refused with what was typed, of a long text with its beginning', () => {
    expect(refusal(() => hexalobularDrive({ size: 'T27' })).value).toBe('T27');
    expect(refusal(() => hexalobularDrive({ size: 'T2'.repeat(60) })).value).toBe('T2'.repeat(40));
  });
});

it('a standard is found in any case, with or without spaces', () => {
  const spaced = fc.array(fc.constantFrom('', ' ', '  '), { minLength: 8, maxLength: 8 });
  fc.assert(
    fc.property(spaced, fc.boolean(), (gaps, isLower) => {
      const typed = [...'DIN 931'].map((letter, index) => `${letter}${gaps[index] ?? ''}`).join('');
      expect(socket('M10', 'hex', isLower ? typed.toLowerCase() : typed).nominalMm).toBe(17);
    }),
  );
});
