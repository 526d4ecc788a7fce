import type { Citation, RowOf, TableOf } from '../../../shared-types/handbook.ts';
import type { HeadForm } from '../../../shared-types/plan.ts';
import { RefusedError } from '../errors.ts';
import { headTables } from '../handbook/heads.ts';
import { mmOfPrintedInches } from '../handbook/printed.ts';
import { citationOf, type Citable } from '../handbook/rows.ts';
import { threadTables } from '../handbook/threads.ts';

export interface HeadLimits {
  /** Of a hexagon socket: the internal hexagon. */
  acrossFlatsMaxMm: number;
  acrossFlatsMinMm: number;
  acrossCornersMinMm: number | null;
}

export interface HeldHead {
  headForm: HeadForm;
  system: 'metric' | 'unified';
  /** The thread's size as the table prints it: "M10", "7/16". */
  size: string;
  majorMm: number;
  /** As printed: "16 mm", "7/16 in". */
  nominal: string;
  nominalMm: number;
  /** Null where the table prints the nominal width alone. */
  limits: HeadLimits | null;
  citation: Citation;
}

/** Diameter of "M10" [mm]. */
function metricMajorMm(size: string): number {
  const digits = /^M(\d+(?:\.\d+)?)$/.exec(size)?.[1];
  if (digits === undefined)
    throw new RefusedError({ code: 'unreadable-thread', message: `"${size}" is no metric size.` });
  return Number(digits);
}

/** Diameter of "#10" or "7/16" [mm]: numbers and inches share the name "1", and the number is the smaller. */
function inchMajorMm(size: string): number {
  const isNumber = size.startsWith('#');
  const row = threadTables['unified-series-asme-b1.1'].rows.find(
    (held) => held.size === size.replace('#', '') && isNumber === held.major_diameter_in < 0.25,
  );
  if (row === undefined)
    throw new RefusedError({ code: 'unreadable-thread', message: `"${size}" is no inch size held.` });
  return mmOfPrintedInches(row.major_diameter_in);
}

interface MetricHead {
  table: Citable;
  headForm: HeadForm;
  thread: string;
  acrossFlatsMm: number;
  limits: HeadLimits | null;
}

function metric({ table, headForm, thread, acrossFlatsMm, limits }: MetricHead): HeldHead {
  return {
    headForm,
    system: 'metric',
    size: thread,
    majorMm: metricMajorMm(thread),
    nominal: `${acrossFlatsMm} mm`,
    nominalMm: acrossFlatsMm,
    limits,
    citation: citationOf(table),
  };
}

interface InchHead {
  table: Citable;
  headForm: HeadForm;
  size: string;
  majorMm: number;
  width: string;
  widthIn: number;
  limits: HeadLimits | null;
}

function inch({ table, headForm, size, majorMm, width, widthIn, limits }: InchHead): HeldHead {
  return {
    headForm,
    system: 'unified',
    size,
    majorMm,
    nominal: `${width} in`,
    nominalMm: mmOfPrintedInches(widthIn),
    limits,
    citation: citationOf(table),
  };
}

function isoLimits(row: { s_nominal_max_mm: number; s_min_mm: number; e_min_mm: number }): HeadLimits {
  return { acrossFlatsMaxMm: row.s_nominal_max_mm, acrossFlatsMinMm: row.s_min_mm, acrossCornersMinMm: row.e_min_mm };
}

function socketLimits(row: RowOf<'socket-head-iso-4762'>): HeadLimits | null {
  const { socket_s_max_mm: max, socket_s_min_mm: min, socket_e_min_mm: corners } = row;
  if (max === null || min === null) return null;
  return { acrossFlatsMaxMm: max, acrossFlatsMinMm: min, acrossCornersMinMm: corners };
}

function isoHexagons(
  headForm: HeadForm,
  table: TableOf<'hex-head-iso-4014'> | TableOf<'hex-nut-iso-4032'>,
): HeldHead[] {
  return table.rows.map((row) =>
    metric({ table, headForm, thread: row.thread, acrossFlatsMm: row.s_nominal_max_mm, limits: isoLimits(row) }),
  );
}

function isoSockets(table: TableOf<'socket-head-iso-4762'>): HeldHead[] {
  return table.rows.map((row) =>
    metric({
      table,
      headForm: 'hex-socket',
      thread: row.thread,
      acrossFlatsMm: row.hex_key_nominal_mm,
      limits: socketLimits(row),
    }),
  );
}

function inchHexagons(table: TableOf<'hex-cap-screw-asme-b18.2.1'>): HeldHead[] {
  return table.rows.map((row) =>
    inch({
      table,
      headForm: 'hex',
      size: row.size,
      majorMm: mmOfPrintedInches(row.nominal_diameter_in),
      width: row.F_basic,
      widthIn: row.F_basic_in,
      limits: {
        acrossFlatsMaxMm: mmOfPrintedInches(row.F_max_in),
        acrossFlatsMinMm: mmOfPrintedInches(row.F_min_in),
        acrossCornersMinMm: mmOfPrintedInches(row.G_min_in),
      },
    }),
  );
}

function inchHeavy(table: TableOf<'heavy-hex-asme'>): HeldHead[] {
  return table.rows.map((row) =>
    inch({
      table,
      headForm: 'heavy-hex',
      size: row.size,
      majorMm: mmOfPrintedInches(row.nominal_diameter_in),
      width: row.F_basic,
      widthIn: row.F_basic_in,
      limits: null,
    }),
  );
}

function inchSockets(table: TableOf<'socket-head-asme-b18.3'>): HeldHead[] {
  return table.rows.map((row) =>
    inch({
      table,
      headForm: 'hex-socket',
      size: row.size,
      majorMm: inchMajorMm(row.size),
      width: row.hex_key,
      widthIn: row.hex_key_in,
      limits: null,
    }),
  );
}

function nominalWidths(
  headForm: HeadForm,
  table: Citable,
  widths: { thread: string; acrossFlatsMm: number }[],
): HeldHead[] {
  return widths.map((width) => metric({ ...width, table, headForm, limits: null }));
}

const heavyMetric = headTables['structural-metric-textbook'];
const iso272 = headTables['across-flats-iso-272'];
const din = headTables['across-flats-din-iso'];
const widths272 = iso272.rows.map((row) => ({ thread: row.thread, acrossFlatsMm: row.s_nominal_mm }));

/**
 * Every head a table holds, in order of precedence: the product's own standard before ISO 272, and the older DIN
 * widths last. Heads are held by diameter; a fine thread has the head of its diameter.
 */
export const heldHeads: readonly HeldHead[] = [
  ...isoHexagons('hex', headTables['hex-head-iso-4014']),
  ...inchHexagons(headTables['hex-cap-screw-asme-b18.2.1']),
  ...isoHexagons('nut', headTables['hex-nut-iso-4032']),
  ...isoSockets(headTables['socket-head-iso-4762']),
  ...inchSockets(headTables['socket-head-asme-b18.3']),
  ...inchHeavy(headTables['heavy-hex-asme']),
  ...nominalWidths(
    'heavy-hex',
    heavyMetric,
    heavyMetric.rows.map((row) => ({ thread: row.thread, acrossFlatsMm: row.s_heavy_or_structural_mm })),
  ),
  ...nominalWidths('hex', iso272, widths272),
  ...nominalWidths('nut', iso272, widths272),
  ...nominalWidths(
    'hex',
    din,
    din.rows.map((row) => ({ thread: row.thread, acrossFlatsMm: row.s_din_mm })),
  ),
];
