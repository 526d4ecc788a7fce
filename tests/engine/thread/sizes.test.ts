import { describe, expect, it } from 'vitest';
import {
  isoRootDiameterMm,
  leadMm,
  leadOfStarts,
  metricStressAreaMm2,
  minorDiameterMm,
  pitchDiameterMm,
  readThread,
  turnsToRun,
  unifiedStressAreaIn2,
  unrRootDiameterIn,
} from '../../../renderer/engine/thread/index.ts';
import { threadTables } from '../../../renderer/engine/handbook/threads.ts';

describe('the examples in the comments', () => {
  it.each([
    ['d2 of M10', pitchDiameterMm({ majorMm: 10, pitchMm: 1.5 }), 9.026, 3],
    ['D1 of M10', minorDiameterMm({ majorMm: 10, pitchMm: 1.5 }), 8.376, 3],
    ['d3 of M10', isoRootDiameterMm({ majorMm: 10, pitchMm: 1.5 }), 8.16, 3],
    ['UNR root of 1/2-13', unrRootDiameterIn({ majorIn: 0.5, threadsPerInch: 13 }), 0.4084, 4],
    ['As of M10', metricStressAreaMm2({ pitchDiameterMm: 9.0257, rootDiameterMm: 8.1597 }), 57.99, 2],
    ['At of 1/2-13', unifiedStressAreaIn2({ majorIn: 0.5, threadsPerInch: 13 }), 0.1419, 4],
    ['At of 1/4-28 in mm²', readThread('1/4-28 UNF-3A').stressAreaMm2, 23.47, 2],
    ['lead of two starts', leadOfStarts({ pitchMm: 1.5, starts: 2 }), 3, 9],
    ['lead of 1/2-20', leadMm('1/2-20'), 1.27, 9],
    ['turns', turnsToRun({ lengthMm: 12, leadMm: 1.5 }), 8, 9],
  ])('%s', (_, computed, stated, digits) => {
    expect(computed).toBeCloseTo(stated, digits);
  });
});

it('the coefficients are those of the 60° triangle: 3√3/8, 5√3/8 and 17√3/24 of the pitch', () => {
  expect(1 - pitchDiameterMm({ majorMm: 1, pitchMm: 1 })).toBeCloseTo((3 * Math.sqrt(3)) / 8, 7);
  expect(1 - minorDiameterMm({ majorMm: 1, pitchMm: 1 })).toBeCloseTo((5 * Math.sqrt(3)) / 8, 7);
  expect(1 - isoRootDiameterMm({ majorMm: 1, pitchMm: 1 })).toBeCloseTo((17 * Math.sqrt(3)) / 24, 7);
});

it('every held metric size reads back with its own series', () => {
  for (const row of threadTables['pitches-iso-262'].rows) {
    expect(readThread(row.thread)).toMatchObject({ series: 'coarse', pitchMm: row.pitch_coarse_mm });
    for (const pitchMm of [row.pitch_fine_1_mm, row.pitch_fine_2_mm]) {
      if (pitchMm !== null) expect(readThread(`${row.thread}x${pitchMm}`)).toMatchObject({ series: 'fine', pitchMm });
    }
  }
});

it('every held unified size reads back with its own series, bare, named and as a decimal', () => {
  for (const row of threadTables['unified-series-asme-b1.1'].rows) {
    const bare = `${row.size}-${row.threads_per_inch}`;
    const decimal = `${row.major_diameter_in}-${row.threads_per_inch}`;
    for (const typed of [bare, `${bare} ${row.series}`, `${bare} ${row.series}-2A`]) {
      expect([typed, readThread(typed)]).toMatchObject([
        typed,
        { series: row.series, threadsPerInch: row.threads_per_inch, size: row.size },
      ]);
    }
    expect([decimal, readThread(decimal).series]).toEqual([decimal, row.series]);
    expect(readThread(`${bare} ${row.series.replace('UN', 'UNJ')}-3A`)).toMatchObject({
      series: row.series.replace('UN', 'UNJ'),
      rootDiameterMm: null,
    });
  }
});

it('the stress area lies between those of the root and the pitch diameter', () => {
  for (const row of threadTables['pitches-iso-262'].rows) {
    const read = readThread(row.thread);
    expect(read.stressAreaMm2).toBeGreaterThan((Math.PI / 4) * (read.rootDiameterMm ?? 0) ** 2);
    expect(read.stressAreaMm2).toBeLessThan((Math.PI / 4) * read.pitchDiameterMm ** 2);
  }
});
