import type { Citation, RowOf, TableOf } from '../../../shared-types/handbook.ts';
import type { Named } from '../handbook/documents.ts';
import { lockingTables } from '../handbook/locking.ts';
import { citationOf, type Citable } from '../handbook/rows.ts';
import type { Matched } from '../torqueTable/index.ts';
import type { Unit } from '../units/index.ts';

/** What a printed torque limits: the greatest running torque, the least breakaway torque, the least torque of a nut used again. */
export type LimitName = 'runningMax' | 'breakawayMin' | 'reusedMin';

/** One limit as its table prints it. */
export interface PrintedLimit {
  limit: LimitName;
  /** The source's own words for the reading and its cycle. */
  reading: string;
  /** Null where the table does not tell kinds of nut apart. */
  variant: string | null;
  value: number;
  unit: Unit;
  /** The same in the second unit the table prints; rounded, and not what is computed with. */
  also?: { value: number; unit: Unit };
}

export interface HeldLimits {
  /** The thread or the size as printed. */
  size: string;
  matched: Matched;
  /** Which of the document's nuts: its only class held. Null where it has no classes. */
  condition: string | null;
  printed: PrintedLimit[];
  table: Named & { notes: string };
  citation: Citation;
}

type LockingTable = Named & Citable & { notes: string };

function heldLimits(
  table: LockingTable,
  x: { size: string; matched: Matched; condition?: string },
  printed: (PrintedLimit | null)[],
): HeldLimits {
  return {
    size: x.size,
    matched: x.matched,
    condition: x.condition ?? null,
    printed: printed.filter((limit) => limit !== null),
    table,
    citation: citationOf(table),
  };
}

/** A limit in pound-force inches, the unit of all tables but one; null where the source prints nothing. */
function lbfIn(limit: LimitName, reading: string, value: number | null): PrintedLimit | null {
  return value === null ? null : { limit, reading, variant: null, value, unit: 'lbf·in' };
}

type MilitaryTable = TableOf<'prevailing-mil-dtl-45916-coarse'> | TableOf<'prevailing-mil-dtl-45916-fine'>;
type BreakawayTable = TableOf<'breakaway-army-coarse'> | TableOf<'breakaway-army-fine'>;
type ReuseTable = TableOf<'reuse-faa-ac-43.13-coarse'> | TableOf<'reuse-faa-ac-43.13-fine'>;

function military(table: MilitaryTable): HeldLimits[] {
  return table.rows.map((row) =>
    heldLimits(table, { size: row.thread, matched: 'thread' }, [
      lbfIn('runningMax', 'greatest locking torque, any cycle', row.max_locking_torque_lbf_in),
      lbfIn('breakawayMin', 'least breakaway torque, through the 15-cycle test', row.min_breakaway_torque_lbf_in),
    ]),
  );
}

function breakaway(table: BreakawayTable): HeldLimits[] {
  return table.rows.map((row) =>
    heldLimits(table, { size: row.thread, matched: 'thread' }, [
      lbfIn('breakawayMin', 'least breakaway torque', row.min_breakaway_torque_lbf_in),
    ]),
  );
}

/** Its least friction torque has the numbers of the military least breakaway torque, size by size. */
function friction(table: TableOf<'friction-helicopter-army'>): HeldLimits[] {
  return table.rows.map((row) =>
    heldLimits(table, { size: row.thread, matched: 'thread' }, [
      lbfIn('breakawayMin', 'least friction torque', row.min_friction_torque_lbf_in),
    ]),
  );
}

function reuse(table: ReuseTable): HeldLimits[] {
  return table.rows.map((row) =>
    heldLimits(table, { size: row.thread, matched: 'thread' }, [
      lbfIn('reusedMin', 'least prevailing torque, nut used again', row.min_prevailing_torque_reused_lbf_in),
    ]),
  );
}

function generatorSet(table: TableOf<'reuse-generator-set-army'>): HeldLimits[] {
  return table.rows.map((row) =>
    heldLimits(table, { size: row.size, matched: 'diameter' }, [
      variant('all-metal', row.all_metal_min_lbf_in, row.all_metal_min_N_m),
      variant('nylon', row.nylon_min_lbf_in, row.nylon_min_N_m),
    ]),
  );
}

function variant(name: string, value: number, nm: number | null): PrintedLimit {
  return {
    limit: 'reusedMin',
    reading: 'least on-off torque, nut used again',
    variant: name,
    value,
    unit: 'lbf·in',
    ...(nm === null ? {} : { also: { value: nm, unit: 'N·m' } }),
  };
}

function iso2320(table: TableOf<'prevailing-iso-2320-class-04'>): HeldLimits[] {
  const newtonMetres = (limit: LimitName, reading: string, value: number): PrintedLimit => ({
    limit,
    reading,
    variant: null,
    value,
    unit: 'N·m',
  });
  return table.rows.map((row: RowOf<'prevailing-iso-2320-class-04'>) =>
    heldLimits(table, { size: row.thread, matched: 'thread', condition: `nut class ${row.nut_class}` }, [
      newtonMetres('runningMax', 'first on', row.first_on_max_N_m),
      newtonMetres('breakawayMin', 'first off', row.first_off_min_N_m),
      newtonMetres('reusedMin', 'fifth off', row.fifth_off_min_N_m),
    ]),
  );
}

/** Every running, breakaway and reuse limit a table prints, in the order of the tables and their rows. */
export const allHeldLimits: readonly HeldLimits[] = [
  ...military(lockingTables['prevailing-mil-dtl-45916-coarse']),
  ...military(lockingTables['prevailing-mil-dtl-45916-fine']),
  ...breakaway(lockingTables['breakaway-army-coarse']),
  ...breakaway(lockingTables['breakaway-army-fine']),
  ...friction(lockingTables['friction-helicopter-army']),
  ...reuse(lockingTables['reuse-faa-ac-43.13-coarse']),
  ...reuse(lockingTables['reuse-faa-ac-43.13-fine']),
  ...generatorSet(lockingTables['reuse-generator-set-army']),
  ...iso2320(lockingTables['prevailing-iso-2320-class-04']),
];
