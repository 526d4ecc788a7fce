/**
 * Torque against size, through the headless command `torquetable`: each table whole, every row by its own thread, every band in N·m by
 * the exact size of its printed unit; and no band beside those printed.
 */
import { describe, expect, it } from 'vitest';
import type { TorqueBand } from '../../renderer/engine/torqueTable/index.ts';
import { resultOf } from '../electron/headless/inProcess.ts';
import { cellAt, expectCell, printedTable, textAt, unitSizes, type CellRow } from './values/cells.ts';
import { numberOf } from './values/printed.ts';

interface Column {
  condition: RegExp;
  /** Columns of the two ends; absent where the source prints the other end alone. */
  min?: string;
  max?: string;
}

interface Table {
  key: string;
  document: string;
  unit: 'lbfIn' | 'lbfFt' | 'ozfIn';
  matched: 'thread' | 'diameter';
  thread: (row: CellRow) => string;
  columns: Column[];
}

const threadOf = (row: CellRow): string => cellAt(row, 'thread');
const both = (condition: RegExp, stem: string, unit = 'lbf_in'): Column => ({
  condition,
  min: `${stem}_min_${unit}`,
  max: `${stem}_max_${unit}`,
});
const single = (condition: RegExp, column: string): Column => ({ condition, min: column, max: column });

const faa: Column[] = [
  both(/^tension nut, standard: .* clean, dry, cadmium-plated threads$/, 'tension_nut_torque'),
  both(/^shear nut, standard: .* clean, dry, cadmium-plated threads$/, 'shear_nut_torque'),
  { condition: /^tension nut, maximum allowable: .*90,000 psi/, max: 'max_allowable_tension_nut_lbf_in' },
  { condition: /^shear nut, maximum allowable: .*54,000 psi/, max: 'max_allowable_shear_nut_lbf_in' },
];

/** Threads that have the diameters of the dash numbers. */
const dashThreads: Record<string, string> = {
  3: '10-32',
  4: '1/4-28',
  5: '5/16-24',
  6: '3/8-24',
  7: '7/16-20',
  8: '1/2-20',
  9: '9/16-18',
};

/** A thread of a size printed without pitch; M6 names the coarse one. */
const ofSize = (size: string): string => (size.startsWith('M') ? size : size === '1' ? '1-8' : `${size}-22`);

const tables: Table[] = [
  {
    key: 'torque-faa-ac-43.13-coarse',
    document: 'FAA AC 43.13-1B',
    unit: 'lbfIn',
    matched: 'thread',
    thread: threadOf,
    columns: faa,
  },
  {
    key: 'torque-faa-ac-43.13-fine',
    document: 'ac43.13-1b',
    unit: 'lbfIn',
    matched: 'thread',
    thread: threadOf,
    columns: faa,
  },
  {
    key: 'torque-nasa-a286',
    document: 'NASA TM-106943',
    unit: 'lbfIn',
    matched: 'thread',
    thread: threadOf,
    columns: [
      both(/^A-286 bolt, cadmium-plated nut$/, 'torque_cad_plated_nut'),
      both(/^A-286 bolt, dry film nut$/, 'torque_dry_film_nut'),
      both(/^A-286 bolt, greased$/, 'torque_greased'),
    ],
  },
  {
    key: 'torque-nasa-cres',
    document: 'TM 106943',
    unit: 'lbfIn',
    matched: 'thread',
    thread: threadOf,
    columns: [
      both(/^300-series CRES bolt, passivated$/, 'torque_passivated'),
      both(/^300-series CRES bolt, plated$/, 'torque_plated'),
      both(/^300-series CRES bolt, lubricated$/, 'torque_lubricated'),
    ],
  },
  {
    key: 'torque-nasa-small',
    document: 'NASA TM-106943',
    unit: 'ozfIn',
    matched: 'thread',
    thread: threadOf,
    columns: [both(/^CRES bolt$/, 'cres_torque', 'ozf_in'), both(/^A-286 bolt$/, 'a286_torque', 'ozf_in')],
  },
  {
    key: 'torque-helicopter-nuts-army',
    document: 'TM 55-1520-240-23-1',
    unit: 'lbfIn',
    matched: 'diameter',
    thread: (row) => dashThreads[cellAt(row, 'nut_dash_number')] ?? 'none',
    columns: [both(/^MS21224-\d nut, dry$/, 'torque')],
  },
  {
    key: 'torque-army-general',
    document: 'TM 10-4320-346-12&P',
    unit: 'lbfFt',
    matched: 'thread',
    thread: threadOf,
    columns: [2, 5, 7, 8].map((grade) =>
      single(new RegExp(`^grade ${grade}, dry threads$`), `torque_dry_grade_${grade}_lbf_ft`),
    ),
  },
  {
    key: 'torque-army-table-f1',
    document: 'TM 9-2320-362-14&P',
    unit: 'lbfFt',
    matched: 'diameter',
    thread: (row) => ofSize(cellAt(row, 'size')),
    columns: [
      single(/^grade 5, clean dry threads$/, 'torque_grade_5_lbf_ft'),
      single(/^grade 8, clean dry threads$/, 'torque_grade_8_lbf_ft'),
      single(/^millimetre size under the column of grade 5 \(no ISO class\)/, 'torque_grade_5_column_lbf_ft'),
      single(/^millimetre size under the column of grade 8 \(no ISO class\)/, 'torque_grade_8_column_lbf_ft'),
    ],
  },
];

const shown = { lbfIn: 'lbf·in', lbfFt: 'lbf·ft', ozfIn: 'ozf·in' };

describe.each(tables)('$key', ({ key, document, unit, matched, thread, columns }) => {
  const table = printedTable(key);

  it.each(table.rows.map((row) => ({ row, asked: thread(row) })))('$asked', async ({ row, asked }) => {
    const { rows } = await resultOf<{ rows: TorqueBand[] }>('torquetable', asked, '--document', document);
    const bands = rows.filter((band) => band.source.key === key);
    const printed = columns.filter(({ min, max }) => textAt(row, max ?? min ?? '') !== undefined);
    expect(bands).toHaveLength(printed.length);
    for (const { condition, min, max } of printed) {
      const [band, second] = bands.filter((candidate) => condition.test(candidate.condition));
      expect(second).toBeUndefined();
      if (band === undefined) throw new Error(`no band is ${condition}`);
      expect(band.matched).toBe(matched);
      expect(band.printed.unit).toBe(shown[unit]);
      const ends = [
        [min, band.minNm, band.printed.min],
        [max, band.maxNm, band.printed.max],
      ] as const;
      for (const [column, nm, asPrinted] of ends) {
        if (column === undefined) expect([nm, asPrinted]).toEqual([null, null]);
        else {
          expect(asPrinted).toBe(numberOf(cellAt(row, column)));
          expectCell(nm, cellAt(row, column), unitSizes[unit], table);
        }
      }
    }
    const all = await resultOf<{ rows: TorqueBand[] }>('torquetable', asked);
    expect(all.rows.filter((band) => band.source.key === key)).toEqual(bands);
  });
});

it('no cell of torque is left without a band', () => {
  for (const { key, columns } of tables) {
    const read = new Set(columns.flatMap(({ min, max }) => [min, max]));
    const printed = new Set(printedTable(key).rows.flatMap((row) => Object.keys(row)));
    const unread = [...printed].filter((column) => /torque|allowable/.test(column) && !read.has(column));
    expect({ key, unread }).toEqual({ key, unread: [] });
  }
});
