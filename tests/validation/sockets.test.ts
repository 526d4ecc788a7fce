/**
 * Heads and openings through the headless command `socket`: each table whole, every row by its own thread, every cell in millimetres.
 * The verdicts on near sizes are computed from the limits of both and held against the list of near sizes.
 */
import { describe, expect, it } from 'vitest';
import { openingLimits, type SocketAnswer } from '../../renderer/engine/socket/index.ts';
import { refusalFrom, resultOf } from '../electron/headless/inProcess.ts';
import { cellAt, expectCell, printedTable, textAt, unitSizes } from './values/cells.ts';
import { numberOf } from './values/printed.ts';

const socketOf = (thread: string, head: string, standard?: string): Promise<SocketAnswer> =>
  resultOf('socket', thread, '--head', head, ...(standard === undefined ? [] : ['--standard', standard]));

interface Table {
  key: string;
  head: string;
  standard: string;
  size: string;
  unit: 'mm' | 'in';
  /** Column of the nominal width. */
  nominal: string;
  max?: string;
  min?: string;
  corners?: string;
}

const tables: Table[] = [
  {
    key: 'hex-head-iso-4014',
    head: 'hex',
    standard: 'iso4014',
    size: 'thread',
    unit: 'mm',
    nominal: 's_nominal_max_mm',
    max: 's_nominal_max_mm',
    min: 's_min_mm',
    corners: 'e_min_mm',
  },
  {
    key: 'hex-nut-iso-4032',
    head: 'nut',
    standard: 'ISO 4032',
    size: 'thread',
    unit: 'mm',
    nominal: 's_nominal_max_mm',
    max: 's_nominal_max_mm',
    min: 's_min_mm',
    corners: 'e_min_mm',
  },
  {
    key: 'across-flats-iso-272',
    head: 'hex',
    standard: 'ISO 272',
    size: 'thread',
    unit: 'mm',
    nominal: 's_nominal_mm',
  },
  {
    key: 'across-flats-iso-272',
    head: 'nut',
    standard: 'ISO 272:1982',
    size: 'thread',
    unit: 'mm',
    nominal: 's_nominal_mm',
  },
  { key: 'across-flats-din-iso', head: 'hex', standard: 'DIN 931', size: 'thread', unit: 'mm', nominal: 's_din_mm' },
  { key: 'across-flats-din-iso', head: 'hex', standard: 'din933', size: 'thread', unit: 'mm', nominal: 's_din_mm' },
  { key: 'across-flats-din-iso', head: 'hex', standard: 'ISO 4017', size: 'thread', unit: 'mm', nominal: 's_iso_mm' },
  {
    key: 'socket-head-iso-4762',
    head: 'hex-socket',
    standard: 'ISO 4762',
    size: 'thread',
    unit: 'mm',
    nominal: 'hex_key_nominal_mm',
    max: 'socket_s_max_mm',
    min: 'socket_s_min_mm',
    corners: 'socket_e_min_mm',
  },
  {
    key: 'hex-cap-screw-asme-b18.2.1',
    head: 'hex',
    standard: 'ASME B18.2.1',
    size: 'size',
    unit: 'in',
    nominal: 'F_basic',
    max: 'F_max_in',
    min: 'F_min_in',
    corners: 'G_min_in',
  },
  { key: 'heavy-hex-asme', head: 'heavy-hex', standard: 'ASME B18.2.6', size: 'size', unit: 'in', nominal: 'F_basic' },
  {
    key: 'structural-metric-textbook',
    head: 'heavy-hex',
    standard: 'Table A-29',
    size: 'thread',
    unit: 'mm',
    nominal: 's_heavy_or_structural_mm',
  },
  {
    key: 'structural-metric-textbook',
    head: 'hex',
    standard: 'table a-29',
    size: 'thread',
    unit: 'mm',
    nominal: 's_regular_mm',
  },
  {
    key: 'socket-head-asme-b18.3',
    head: 'hex-socket',
    standard: 'ASME B18.3',
    size: 'size',
    unit: 'in',
    nominal: 'hex_key',
  },
];

/** A thread of the size: heads go by diameter. Number sizes are written with their sign, inches with a mark. */
function threadOf(size: string): string {
  if (size.startsWith('M')) return size;
  return size.startsWith('#') ? `${size}-40` : `${size}"-14`;
}

/** "1-1/8" in inches. */
function inchesOf(text: string): number {
  const [, whole = '0', top, bottom] = /^(?:(\d+)-)?(\d+)\/(\d+)$/.exec(text) ?? [];
  return top === undefined ? Number(text) : Number(whole) + Number(top) / Number(bottom);
}

describe.each(tables)('$key by $standard as $head ($nominal)', (x) => {
  const table = printedTable(x.key);

  it.each(table.rows.map((row) => ({ row, size: cellAt(row, x.size) })))('$size', async ({ row, size }) => {
    const found = await socketOf(threadOf(size), x.head, x.standard);
    expect(found.source.key).toBe(x.key);
    const nominal = cellAt(row, x.nominal);
    expect(found.nominal).toBe(x.unit === 'in' ? `${nominal} in` : `${numberOf(nominal)} mm`);
    expectCell(found.nominalMm, String(inchesOf(nominal)), unitSizes[x.unit], table);
    const cells = [
      [x.max, found.head.acrossFlatsMaxMm],
      [x.min, found.head.acrossFlatsMinMm],
      [x.corners, found.head.acrossCornersMinMm],
    ] as const;
    for (const [column, mm] of cells) {
      const cell = column === undefined ? undefined : textAt(row, column);
      if (cell === undefined) expect(mm).toBeNull();
      else expectCell(mm, cell, unitSizes[x.unit], table);
    }
  });
});

describe('hexalobular-iso-10664', () => {
  const table = printedTable('hexalobular-iso-10664');

  it.each(table.rows.map((row) => ({ row, size: cellAt(row, 'hexalobular_size') })))('$size', async ({ row, size }) => {
    const found = await socketOf(size, 'hexalobular', 'ISO 10664');
    expect(found).toMatchObject({ nominal: size, nominalMm: null, opening: null, near: [] });
    expect(found.head).toMatchObject({ acrossFlatsMaxMm: null, acrossFlatsMinMm: null, acrossCornersMinMm: null });
    expectCell(found.head.referenceAMm, cellAt(row, 'A_reference_mm'), 1, table);
  });
});

describe('wrench-openings-asme-b18.2.2', () => {
  const table = printedTable('wrench-openings-asme-b18.2.2');

  it.each(table.rows.map((row) => ({ row, nominal: cellAt(row, 'nominal') })))('$nominal in', ({ row, nominal }) => {
    const found = openingLimits({ nominalMm: inchesOf(nominal) * 25.4 });
    expect(found?.nominal).toBe(nominal);
    expectCell(found?.minMm ?? null, cellAt(row, 'opening_min_in'), unitSizes.in, table);
    expectCell(found?.maxMm ?? null, cellAt(row, 'opening_max_in'), unitSizes.in, table);
  });

  const heads = printedTable('hex-cap-screw-asme-b18.2.1').rows;

  it.each(heads.map((row) => ({ size: cellAt(row, 'size'), width: cellAt(row, 'F_basic'), head: row })))(
    'stands beside the head of the $size cap screw, $width in',
    async ({ size, width, head }) => {
      const found = await socketOf(threadOf(size), 'hex');
      const row = table.rows.find((candidate) => cellAt(candidate, 'nominal') === width);
      if (row === undefined) {
        expect(found).toMatchObject({ opening: null, freeAngleDeg: null, slips: null });
        expect(['2-5/8', '3']).toContain(width);
        return;
      }
      expect(found.opening?.source.number).toBe('ASME/ANSI B18.2.2');
      expectCell(found.opening?.minMm ?? null, cellAt(row, 'opening_min_in'), unitSizes.in, table);
      expectCell(found.opening?.maxMm ?? null, cellAt(row, 'opening_max_in'), unitSizes.in, table);
      expect(found.slips).toBe(numberOf(cellAt(row, 'opening_max_in')) >= numberOf(cellAt(head, 'G_min_in')));
      const angle = (opening: string, flats: string): number =>
        30 - (180 / Math.PI) * Math.acos((Math.sqrt(3) * numberOf(opening)) / (2 * numberOf(flats)));
      expect(found.freeAngleDeg?.min).toBeCloseTo(angle(cellAt(row, 'opening_min_in'), cellAt(head, 'F_max_in')), 9);
      expect(found.freeAngleDeg?.max).toBeCloseTo(angle(cellAt(row, 'opening_max_in'), cellAt(head, 'F_min_in')), 9);
    },
  );
});

describe('near-sizes', () => {
  const table = printedTable('near-sizes');
  const pairs = table.rows.map((row) => ({
    inch: cellAt(row, 'inch'),
    metric: cellAt(row, 'metric_mm'),
    goesOn: row['inch_socket_goes_on_largest_metric_head'],
    practice: row['interchangeable_in_common_practice'] ?? null,
  }));

  /** Threads whose head has the metric width; DIN where no ISO head has it. */
  const threads: Record<string, [string, string?]> = {
    8: ['M5'],
    13: ['M8'],
    16: ['M10'],
    19: ['M12', 'DIN 931'],
    21: ['M14'],
    22: ['M14', 'DIN 931'],
    24: ['M16'],
    27: ['M18'],
    32: ['M22', 'DIN 931'],
  };

  it.each(pairs.filter(({ metric }) => threads[metric] !== undefined))(
    '$inch in on $metric mm goes on: $goesOn',
    async ({ inch, metric, goesOn, practice }) => {
      const [thread, standard] = threads[metric] ?? [''];
      const { near } = await socketOf(thread, 'hex', standard);
      expect(near.find(({ nominal }) => nominal === `${inch} in`)).toMatchObject({
        goesOn,
        interchangeableInPractice: practice,
      });
    },
  );

  it('leaves no pair of a head that is held unasked', () => {
    const unasked = pairs.filter(({ metric }) => threads[metric] === undefined).map(({ metric }) => Number(metric));
    const widths = new Set(
      ['across-flats-iso-272', 'hex-head-iso-4014'].flatMap((key) =>
        printedTable(key).rows.map((row) => Number(textAt(row, 's_nominal_mm') ?? textAt(row, 's_nominal_max_mm'))),
      ),
    );
    expect(unasked.toSorted((a, b) => a - b)).toEqual([6, 11, 14, 29]);
    expect(unasked.filter((width) => widths.has(width))).toEqual([]);
  });

  const inchHeads = printedTable('hex-cap-screw-asme-b18.2.1').rows;

  it.each(
    pairs.flatMap((pair) =>
      inchHeads
        .filter((row) => cellAt(row, 'F_basic') === pair.inch)
        .map((row) => ({ ...pair, size: cellAt(row, 'size') })),
    ),
  )('$metric mm beside the inch head of $inch in: no verdict, for no metric opening is held', async (pair) => {
    const { near } = await socketOf(threadOf(pair.size), 'hex');
    expect(near.find(({ nominal }) => nominal === `${pair.metric} mm`)).toMatchObject({
      goesOn: null,
      clearanceMaxMm: null,
      freeAngleMaxDeg: null,
      interchangeableInPractice: pair.practice,
    });
  });
});

it.each(['M10', '1/4-20', '#10-32'])(
  'no twelve-point head is held for %s, and what is held is named',
  async (thread) => {
    const refused = await refusalFrom('socket', thread, '--head', 'twelve-point');
    expect(refused).toMatchObject({ code: 'not-held', field: 'head', value: 'twelve-point' });
    expect(refused.message).toContain('hex, heavy-hex, nut and hex-socket');
  },
);
