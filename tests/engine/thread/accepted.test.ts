import { describe, expect, it } from 'vitest';
import { readThread, type Series } from '../../../renderer/engine/thread/index.ts';

/** Typed text; designation, series, major diameter in inches or mm, threads an inch or pitch, hand, class. */
const metric: [string, string, Series, number, number, 'right' | 'left', string | null][] = [
  ['M10', 'M10x1.5', 'coarse', 10, 1.5, 'right', null],
  ['M10x1.25', 'M10x1.25', 'fine', 10, 1.25, 'right', null],
  ['M10x1', 'M10x1', 'fine', 10, 1, 'right', null],
  ['M10×1.25-6g', 'M10x1.25-6g', 'fine', 10, 1.25, 'right', '6g'],
  ['M10 x 1.5 LH', 'M10x1.5 LH', 'coarse', 10, 1.5, 'left', null],
  ['M10X1.5', 'M10x1.5', 'coarse', 10, 1.5, 'right', null],
  ['M10 × 1.5 - 6H/6g', 'M10x1.5-6H/6g', 'coarse', 10, 1.5, 'right', '6H/6g'],
  ['M10x1.5-5g6g-LH', 'M10x1.5-5g6g LH', 'coarse', 10, 1.5, 'left', '5g6g'],
  ['M10-6g', 'M10x1.5-6g', 'coarse', 10, 1.5, 'right', '6g'],
  ['M10x1.50', 'M10x1.5', 'coarse', 10, 1.5, 'right', null],
  ['M1.6', 'M1.6x0.35', 'coarse', 1.6, 0.35, 'right', null],
  ['M9x1.25', 'M9x1.25', 'special', 9, 1.25, 'right', null],
  ['M10x0.75', 'M10x0.75', 'special', 10, 0.75, 'right', null],
  ['  M10  ', 'M10x1.5', 'coarse', 10, 1.5, 'right', null],
  // The ends of what is read: the largest diameter, the finest pitch, the coarsest for its diameter.
  ['M300x6', 'M300x6', 'special', 300, 6, 'right', null],
  ['M1.6x0.2', 'M1.6x0.2', 'special', 1.6, 0.2, 'right', null],
  ['M10x5', 'M10x5', 'special', 10, 5, 'right', null],
];

const unified: [string, string, Series, number, number, 'right' | 'left', string | null][] = [
  ['1/4-28 UNF-3A', '1/4-28 UNF-3A', 'UNF', 0.25, 28, 'right', '3A'],
  ['1/4-28', '1/4-28 UNF', 'UNF', 0.25, 28, 'right', null],
  ['.2500-28 UNJF-3A', '1/4-28 UNJF-3A', 'UNJF', 0.25, 28, 'right', '3A'],
  ['0.250-28', '1/4-28 UNF', 'UNF', 0.25, 28, 'right', null],
  ['#10-32', '10-32 UNF', 'UNF', 0.19, 32, 'right', null],
  ['10-32 UNF', '10-32 UNF', 'UNF', 0.19, 32, 'right', null],
  ['No. 8-32', '8-32 UNC', 'UNC', 0.164, 32, 'right', null],
  ['NO 8-32', '8-32 UNC', 'UNC', 0.164, 32, 'right', null],
  ['.190-32', '10-32 UNF', 'UNF', 0.19, 32, 'right', null],
  ['1-1/8-12 UNF', '1-1/8-12 UNF', 'UNF', 1.125, 12, 'right', null],
  ['1 1/8-12 UNF', '1-1/8-12 UNF', 'UNF', 1.125, 12, 'right', null],
  ['5/8-11 UNC-2B LH', '5/8-11 UNC-2B LH', 'UNC', 0.625, 11, 'left', '2B'],
  ['5/8-11 UNC-2B-LH', '5/8-11 UNC-2B LH', 'UNC', 0.625, 11, 'left', '2B'],
  ['5/8-11-UNC-2B', '5/8-11 UNC-2B', 'UNC', 0.625, 11, 'right', '2B'],
  ['5/8 - 11 UNC', '5/8-11 UNC', 'UNC', 0.625, 11, 'right', null],
  ['5/8-11unc-2b', '5/8-11 UNC-2B', 'UNC', 0.625, 11, 'right', '2B'],
  ['5/8"-11 UNC', '5/8-11 UNC', 'UNC', 0.625, 11, 'right', null],
  ['1-8', '1-8 UNC', 'UNC', 1, 8, 'right', null],
  ['1-12', '1-12 UNF', 'UNF', 1, 12, 'right', null],
  ['1-64', '1-64 UNC', 'UNC', 0.073, 64, 'right', null],
  ['1-72', '1-72 UNF', 'UNF', 0.073, 72, 'right', null],
  ['#0-80', '0-80 UNF', 'UNF', 0.06, 80, 'right', null],
  ['0-80', '0-80 UNF', 'UNF', 0.06, 80, 'right', null],
  ['1.000-8', '1-8 UNC', 'UNC', 1, 8, 'right', null],
  ['1/2-13 UNRC-2A', '1/2-13 UNC-2A', 'UNC', 0.5, 13, 'right', '2A'],
  ['1/4-20 UNJC-3A', '1/4-20 UNJC-3A', 'UNJC', 0.25, 20, 'right', '3A'],
  ['1/4-20 UNJ-3A', '1/4-20 UNJC-3A', 'UNJC', 0.25, 20, 'right', '3A'],
  ['1/4-32 UNS-2A', '1/4-32 UNS-2A', 'special', 0.25, 32, 'right', '2A'],
  ['1/4-32 UNJS-3A', '1/4-32 UNJS-3A', 'special', 0.25, 32, 'right', '3A'],
  ['1/4-27 UNS', '1/4-27 UNS', 'special', 0.25, 27, 'right', null],
  ['1/4-27', '1/4-27', 'special', 0.25, 27, 'right', null],
  ['11/16-12 UN-2A', '11/16-12-2A', 'special', 0.6875, 12, 'right', '2A'],
  ['2-12 UN', '2.0-12', 'special', 2, 12, 'right', null],
  ['2.0-40 UNS', '2.0-40 UNS', 'special', 2, 40, 'right', null],
  ['#2-40 UNS', 'No. 2-40 UNS', 'special', 0.086, 40, 'right', null],
  ['2.0-40 UNJ-3A', '2.0-40 UNJ-3A', 'special', 2, 40, 'right', '3A'],
  ['1-14 UNS', '1.0-14 UNS', 'special', 1, 14, 'right', null],
  ['2-4.5', '2.0-4.5', 'special', 2, 4.5, 'right', null],
  ['#4-20', 'No. 4-20', 'special', 0.112, 20, 'right', null],
  ['0.3-32', '0.3-32', 'special', 0.3, 32, 'right', null],
  ['2"-56', '2.0-56', 'special', 2, 56, 'right', null],
  ['#0-127', 'No. 0-127', 'special', 0.06, 127, 'right', null],
  ['6.0-4', '6.0-4', 'special', 6, 4, 'right', null],
];

describe('metric designations', () => {
  it.each(metric)('%j is %s, %s', (typed, designation, series, majorMm, pitchMm, hand, threadClass) => {
    expect(readThread(typed)).toMatchObject({
      designation,
      system: 'metric',
      series,
      majorMm,
      pitchMm,
      threadsPerInch: null,
      hand,
      class: threadClass,
    });
  });
});

describe('unified designations', () => {
  it.each(unified)('%j is %s, %s', (typed, designation, series, majorIn, threadsPerInch, hand, threadClass) => {
    const read = readThread(typed);
    expect(read).toMatchObject({ designation, system: 'unified', series, threadsPerInch, hand, class: threadClass });
    expect(read.majorMm / 25.4).toBeCloseTo(majorIn, 12);
    expect(read.pitchMm * threadsPerInch).toBeCloseTo(25.4, 12);
  });
});

it.each([...metric, ...unified])('the designation of %j reads back as the same thread', (typed) => {
  const read = readThread(typed);
  expect(readThread(read.designation)).toEqual(read);
});

describe('decimals mean a held size within 0.0005 in', () => {
  it.each(['.2495-28', '.2505-28', '0.2500-28', '.25-28'])('%s is a quarter', (typed) => {
    expect(readThread(typed)).toMatchObject({ majorMm: 6.35, series: 'UNF', size: '1/4' });
  });

  it.each(['.2494-28', '.2506-28', '.2505000005-28'])('%s is a size of its own', (typed) => {
    expect(readThread(typed)).toMatchObject({ series: 'special' });
    expect(readThread(typed).majorMm).not.toBe(6.35);
  });
});
