/**
 * Openings and heads against print. In every case the expected number stands in a column that the computation does not
 * read: corners are computed from flats, openings from their nominal size, verdicts from limits in other documents.
 * Printed numbers are compared to half their last digit; a print that its own rule misses is named with its size.
 */
import { describe, expect, it } from 'vitest';
import { headTables, openingTables, practiceTables } from '../../renderer/engine/handbook/index.ts';
import {
  acrossCornersMinMm,
  acrossCornersMm,
  fitAtLimits,
  fitOf,
  headLimits,
  heavyHexAcrossFlatsMm,
  openingByFormula,
  openingLimits,
} from '../../renderer/engine/socket/index.ts';

const halfOf = (lastDigit: number): number => lastDigit / 2 + 1e-9;

describe('least width across corners, ISO product grades A and B', () => {
  const printed = [
    ...headTables['hex-head-iso-4014'].rows.map((row) => ({ ...row, document: 'ISO 4014 Table 1' })),
    ...headTables['hex-nut-iso-4032'].rows.map((row) => ({ ...row, document: 'ISO 4032 Table 1' })),
  ];

  it.each(printed)('$document $thread prints $e_min_mm', ({ document, thread, s_min_mm, e_min_mm }) => {
    const computed = acrossCornersMinMm({ acrossFlatsMinMm: s_min_mm, rule: 'iso-grade-a-b' });
    // ISO 4032 prints 23.35 for M14 where ISO 4014 prints 23.36 for the same hexagon.
    const cutOff = document.startsWith('ISO 4032') && thread === 'M14';
    expect(Math.abs(computed - e_min_mm)).toBeLessThanOrEqual(cutOff ? 0.01 : halfOf(0.01));
  });
});

it.each(headTables['socket-head-iso-4762'].rows.filter((row) => row.socket_s_min_mm !== null))(
  'least width across corners of a hexagon socket, ISO 4762 Table 1 $thread prints $socket_e_min_mm',
  ({ socket_s_min_mm, socket_e_min_mm }) => {
    const computed = acrossCornersMinMm({ acrossFlatsMinMm: socket_s_min_mm ?? 0, rule: 'iso-socket' });
    expect(Math.abs(computed - socket_e_min_mm)).toBeLessThanOrEqual(halfOf(0.01));
  },
);

describe.each(headTables['hex-cap-screw-asme-b18.2.1'].rows)('corners of ASME B18.2.1 hex cap screw $size', (row) => {
  it(`are at most ${row.G_max_in} in, the sharp hexagon of the basic width`, () => {
    const sharpIn = acrossCornersMm({ acrossFlatsMm: row.F_basic_in * 25.4 }) / 25.4;
    expect(Math.abs(sharpIn - row.G_max_in)).toBeLessThanOrEqual(halfOf(0.001));
  });

  it(`are at least ${row.G_min_in} in`, () => {
    const leastIn = acrossCornersMinMm({ acrossFlatsMinMm: row.F_min_in * 25.4, rule: 'asme-external' }) / 25.4;
    // 1/2 in: 1.14 · .736 is .8390, and .840 is printed.
    expect(Math.abs(leastIn - row.G_min_in)).toBeLessThanOrEqual(row.size === '1/2' ? 0.001 : halfOf(0.001));
  });
});

it.each(headTables['heavy-hex-asme'].rows)(
  'heavy hex $size is $F_basic in wide (ASME B18.2.1, recalled: a check of memory against memory)',
  ({ nominal_diameter_in, F_basic_in }) => {
    expect(heavyHexAcrossFlatsMm({ nominalDiameterMm: nominal_diameter_in * 25.4 })).toBeCloseTo(F_basic_in * 25.4, 9);
  },
);

it.each(openingTables['wrench-openings-asme-b18.2.2'].rows)(
  'the appendix’s formula meets its printed opening $nominal within 0.002 in (ASME B18.2.2 appendix)',
  ({ nominal_in, opening_min_in, opening_max_in }) => {
    const { minMm, maxMm } = openingByFormula({ widthIn: nominal_in });
    expect(Math.abs(minMm / 25.4 - opening_min_in)).toBeLessThanOrEqual(0.002);
    expect(Math.abs(maxMm / 25.4 - opening_max_in)).toBeLessThanOrEqual(0.002);
  },
);

describe('a wrench of the right name goes on', () => {
  it.each(headTables['hex-cap-screw-asme-b18.2.1'].rows.map((row) => ({ size: row.size, widthIn: row.F_basic_in })))(
    'ASME B18.2.1 cap screw $size in its ASME B18.2.2 opening, and does not slip',
    ({ size, widthIn }) => {
      const mm = widthIn * 25.4;
      const { fit, reason } = fitOf({ headForm: 'hex', acrossFlatsMm: mm, openingForm: 'hex6', openingMm: mm });
      const printed = openingTables['wrench-openings-asme-b18.2.2'].rows.some((row) => row.nominal_in === widthIn);
      if (printed) expect(fit).toMatchObject({ goesOn: true, slips: false });
      else expect({ size, reason }).toEqual({ size, reason: expect.stringContaining('no published value held') });
    },
  );
});

/** Verdicts of the list of near sizes (common practice); limits from ASME B18.2.2 and ISO 4014, which it does not enter. */
describe('near sizes: an inch opening on the metric head', () => {
  const near = practiceTables['near-sizes'].rows;
  const withLimits = near.filter((row) => headLimits({ headForm: 'hex', acrossFlatsMm: row.metric_mm }) !== null);
  const nominalOnly = near.filter((row) => !withLimits.includes(row));

  it.each(withLimits)('$inch in on $metric_mm mm: $inch_socket_goes_on_largest_metric_head', (row) => {
    const { fit } = fitOf({
      headForm: 'hex',
      acrossFlatsMm: row.metric_mm,
      openingForm: 'hex6',
      openingMm: row.inch_mm,
    });
    expect(fit?.goesOn).toBe(row.inch_socket_goes_on_largest_metric_head);
    expect(fit?.sources.map((source) => source.number)).toEqual(['ISO 4014', 'ASME/ANSI B18.2.2']);
  });

  it.each(nominalOnly)(
    '$inch in on $metric_mm mm: no limits held; on the nominal width as greatest, $inch_socket_goes_on_largest_metric_head',
    (row) => {
      const x = { headForm: 'hex', acrossFlatsMm: row.metric_mm, openingForm: 'hex6', openingMm: row.inch_mm } as const;
      expect(fitOf(x).reason).toContain('no published value held');
      const opening = openingLimits({ nominalMm: row.inch_mm });
      if (opening === null) throw new Error(`${row.inch} in is printed in the appendix`);
      const nominal = { maxMm: row.metric_mm, minMm: row.metric_mm, cornersMinMm: null };
      expect(fitAtLimits({ head: nominal, opening, openingForm: 'hex6' }).goesOn).toBe(
        row.inch_socket_goes_on_largest_metric_head,
      );
    },
  );

  it('covers the sizes called equal in practice: 5/16 on 8 goes on; 5/8 on 16 and 15/16 on 24 do not', () => {
    const goesOn = (openingMm: number, acrossFlatsMm: number): boolean | undefined =>
      fitOf({ headForm: 'hex', acrossFlatsMm, openingForm: 'hex6', openingMm }).fit?.goesOn;
    expect(goesOn((5 / 16) * 25.4, 8)).toBe(true);
    expect(goesOn((5 / 8) * 25.4, 16)).toBe(false);
    expect(goesOn((15 / 16) * 25.4, 24)).toBe(false);
    expect(withLimits.map((row) => row.metric_mm)).toEqual([8, 16, 24, 13, 21]);
  });
});

it('15/16 in on 24 mm misses by the difference of the two prints: .944 in (ASME B18.2.2) less 24 mm (ISO 4014)', () => {
  const x = { headForm: 'hex', acrossFlatsMm: 24, openingForm: 'hex6', openingMm: 23.8125 } as const;
  expect(fitOf(x).fit?.clearanceMm).toBeCloseTo(0.944 * 25.4 - 24, 9);
});
