import type { Citation, RowOf, TableOf } from '../../../shared-types/handbook.ts';
import { RefusedError } from '../errors.ts';
import type { Named } from '../handbook/documents.ts';
import { citationOf } from '../handbook/rows.ts';
import { torqueTables } from '../handbook/torque.ts';
import type { Unit } from '../units/index.ts';
import type { Matched } from './printedThread.ts';

/** A band as its table prints it. */
export interface HeldBand {
  /** The thread or the size meant: "1/4-28", "7/16", "M10". */
  size: string;
  /** The same as printed, where the table has a name of its own for it. */
  printedAs: string;
  /** By what the table tells its rows apart. */
  matched: Matched;
  /** What tells the table's bands for one thread apart: nut, strength, surface, column. */
  condition: string;
  /** Null where the source prints the other end alone. */
  min: number | null;
  max: number | null;
  unit: Unit;
  notes: string[];
  table: Named & { notes: string };
  /** What the document lets every value of the table vary by, either way, in percent; null where it says nothing. */
  tolerancePercent: number | null;
  citation: Citation;
}

interface Column {
  condition: string;
  /** Undefined where the source prints nothing for this row; null where it prints the other end alone. */
  min: number | null | undefined;
  max: number | null | undefined;
  notes?: string[];
}

type TorqueTable = (typeof torqueTables)[keyof typeof torqueTables];

function bandsOf<Table extends TorqueTable>(
  table: Table,
  x: {
    matched: Matched;
    unit: Unit;
    size: (row: Table['rows'][number]) => string;
    printedAs?: (row: Table['rows'][number]) => string;
  },
  columns: (row: Table['rows'][number]) => Column[],
): HeldBand[] {
  return table.rows.flatMap((row) =>
    columns(row).flatMap(({ condition, min, max, notes = [] }) =>
      min === undefined || max === undefined
        ? []
        : [
            {
              size: x.size(row),
              printedAs: (x.printedAs ?? x.size)(row),
              matched: x.matched,
              condition,
              min,
              max,
              unit: x.unit,
              notes,
              table,
              tolerancePercent: table.tolerancePercent ?? null,
              citation: citationOf(table),
            },
          ],
    ),
  );
}

const byThread = (row: { thread: string }): string => row.thread;

/** One value where a table prints neither least nor greatest. */
function single(condition: string, value: number | undefined): Column {
  return { condition, min: value, max: value };
}

type FaaTable = TableOf<'torque-faa-ac-43.13-coarse'> | TableOf<'torque-faa-ac-43.13-fine'>;

const faaSurface = 'clean, dry, cadmium-plated threads';

function faa(table: FaaTable): HeldBand[] {
  return bandsOf(table, { matched: 'thread', unit: 'lbf·in', size: byThread }, (row) => [
    {
      condition: `tension nut, standard: bolt in tension up to about 40,000 psi; ${faaSurface}`,
      min: row.tension_nut_torque_min_lbf_in,
      max: row.tension_nut_torque_max_lbf_in,
    },
    {
      condition: `shear nut, standard: bolt in tension up to about 24,000 psi; ${faaSurface}`,
      min: row.shear_nut_torque_min_lbf_in,
      max: row.shear_nut_torque_max_lbf_in,
      notes: row.flag === '' ? [] : [row.flag],
    },
    {
      condition: `tension nut, maximum allowable: bolt in tension up to 90,000 psi; ${faaSurface}`,
      min: null,
      max: row.max_allowable_tension_nut_lbf_in,
    },
    {
      condition: `shear nut, maximum allowable: bolt in tension up to 54,000 psi; ${faaSurface}`,
      min: null,
      max: row.max_allowable_shear_nut_lbf_in,
    },
  ]);
}

/** The dash number is the diameter in sixteenths of an inch; 3 is number 10. */
function dashSize(row: RowOf<'torque-helicopter-nuts-army'>): string {
  const dash = row.nut_dash_number;
  if (dash < 3) throw new RefusedError({ code: 'internal', message: `Dash number ${dash} has no size here.` });
  return dash === 3 ? '0.190' : `${dash}/16`;
}

const dashNumber = (row: RowOf<'torque-helicopter-nuts-army'>): string => `MS21224-${row.nut_dash_number}`;

/** Every torque band a table prints for a thread or a size, in the order of the tables, their rows and columns. */
export const heldBands: readonly HeldBand[] = [
  ...faa(torqueTables['torque-faa-ac-43.13-coarse']),
  ...faa(torqueTables['torque-faa-ac-43.13-fine']),
  ...bandsOf(
    torqueTables['torque-nasa-a286'],
    { matched: 'thread', unit: 'lbf·in', size: byThread },
    (row): Column[] => [
      {
        condition: `${row.bolt_material} bolt, cadmium-plated nut`,
        min: row.torque_cad_plated_nut_min_lbf_in,
        max: row.torque_cad_plated_nut_max_lbf_in,
      },
      {
        condition: `${row.bolt_material} bolt, dry film nut`,
        min: row.torque_dry_film_nut_min_lbf_in,
        max: row.torque_dry_film_nut_max_lbf_in,
      },
      {
        condition: `${row.bolt_material} bolt, greased`,
        min: row.torque_greased_min_lbf_in,
        max: row.torque_greased_max_lbf_in,
      },
    ],
  ),
  ...bandsOf(torqueTables['torque-nasa-cres'], { matched: 'thread', unit: 'lbf·in', size: byThread }, (row) => [
    {
      condition: `${row.bolt_material} bolt, passivated`,
      min: row.torque_passivated_min_lbf_in,
      max: row.torque_passivated_max_lbf_in,
    },
    {
      condition: `${row.bolt_material} bolt, plated`,
      min: row.torque_plated_min_lbf_in,
      max: row.torque_plated_max_lbf_in,
    },
    {
      condition: `${row.bolt_material} bolt, lubricated`,
      min: row.torque_lubricated_min_lbf_in,
      max: row.torque_lubricated_max_lbf_in,
    },
  ]),
  ...bandsOf(torqueTables['torque-nasa-small'], { matched: 'thread', unit: 'ozf·in', size: byThread }, (row) => [
    { condition: 'CRES bolt', min: row.cres_torque_min_ozf_in, max: row.cres_torque_max_ozf_in },
    { condition: 'A-286 bolt', min: row.a286_torque_min_ozf_in, max: row.a286_torque_max_ozf_in },
  ]),
  ...bandsOf(
    torqueTables['torque-helicopter-nuts-army'],
    { matched: 'diameter', unit: 'lbf·in', size: dashSize, printedAs: dashNumber },
    (row) => [{ condition: `${dashNumber(row)} nut, dry`, min: row.torque_min_lbf_in, max: row.torque_max_lbf_in }],
  ),
  ...bandsOf(torqueTables['torque-army-general'], { matched: 'thread', unit: 'lbf·ft', size: byThread }, (row) => [
    single('grade 2, dry threads', row.torque_dry_grade_2_lbf_ft),
    single('grade 5, dry threads', row.torque_dry_grade_5_lbf_ft),
    single('grade 7, dry threads', row.torque_dry_grade_7_lbf_ft),
    single('grade 8, dry threads', row.torque_dry_grade_8_lbf_ft),
  ]),
  ...bandsOf(
    torqueTables['torque-army-table-f1'],
    { matched: 'diameter', unit: 'lbf·ft', size: (row) => row.size },
    (row) => [
      single('grade 5, clean dry threads', row.torque_grade_5_lbf_ft),
      single('grade 8, clean dry threads', row.torque_grade_8_lbf_ft),
      single(
        'millimetre size under the column of grade 5 (no ISO class), clean dry threads',
        row.torque_grade_5_column_lbf_ft,
      ),
      single(
        'millimetre size under the column of grade 8 (no ISO class), clean dry threads',
        row.torque_grade_8_column_lbf_ft,
      ),
    ],
  ),
];
