import type { RowOf, TableOf } from '../../../shared-types/handbook.ts';
import type { HeadForm } from '../../../shared-types/plan.ts';
import { headTables } from '../handbook/heads.ts';
import { mmOfPrintedInches } from '../handbook/printed.ts';
import { inchHead, inchMajorMm, metricHead, type HeadLimits, type HeadTable, type HeldHead } from './heldHead.ts';

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
    metricHead({ table, headForm, thread: row.thread, acrossFlatsMm: row.s_nominal_max_mm, limits: isoLimits(row) }),
  );
}

function isoSockets(table: TableOf<'socket-head-iso-4762'>): HeldHead[] {
  return table.rows.map((row) =>
    metricHead({
      table,
      headForm: 'hex-socket',
      thread: row.thread,
      acrossFlatsMm: row.hex_key_nominal_mm,
      limits: socketLimits(row),
      acrossCornersMinMm: row.socket_e_min_mm,
    }),
  );
}

function inchHexagons(table: TableOf<'hex-cap-screw-asme-b18.2.1'>): HeldHead[] {
  return table.rows.map((row) =>
    inchHead({
      table,
      headForm: 'hex',
      size: row.size,
      majorMm: mmOfPrintedInches(row.nominal_diameter_in),
      width: row.F_basic,
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
    inchHead({
      table,
      headForm: 'heavy-hex',
      size: row.size,
      majorMm: mmOfPrintedInches(row.nominal_diameter_in),
      width: row.F_basic,
      limits: null,
    }),
  );
}

function inchSockets(table: TableOf<'socket-head-asme-b18.3'>): HeldHead[] {
  return table.rows.map((row) =>
    inchHead({
      table,
      headForm: 'hex-socket',
      size: row.size,
      majorMm: inchMajorMm(row.size),
      width: row.hex_key,
      limits: null,
    }),
  );
}

interface Width {
  thread: string;
  acrossFlatsMm: number;
}

function nominalWidths(headForm: HeadForm, table: HeadTable, widths: Width[], documents?: string[]): HeldHead[] {
  return widths.map((width) =>
    metricHead({ ...width, table, headForm, limits: null, ...(documents === undefined ? {} : { documents }) }),
  );
}

const textbook = headTables['structural-metric-textbook'];
const iso272 = headTables['across-flats-iso-272'];
const comparison = headTables['across-flats-din-iso'];
const widths272 = iso272.rows.map((row) => ({ thread: row.thread, acrossFlatsMm: row.s_nominal_mm }));

/**
 * Every head a table holds, in order of precedence: the product's own standard before ISO 272, and what is only found by its
 * document's number last. Heads are held by diameter; a fine thread has the head of its diameter.
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
    textbook,
    textbook.rows.map((row) => ({ thread: row.thread, acrossFlatsMm: row.s_heavy_or_structural_mm })),
  ),
  ...nominalWidths('hex', iso272, widths272),
  ...nominalWidths('nut', iso272, widths272),
  ...nominalWidths(
    'hex',
    comparison,
    comparison.rows.map((row) => ({ thread: row.thread, acrossFlatsMm: row.s_iso_mm })),
    ['ISO 4014', 'ISO 4017', 'ISO 4014/4017'],
  ),
  ...nominalWidths(
    'hex',
    comparison,
    comparison.rows.map((row) => ({ thread: row.thread, acrossFlatsMm: row.s_din_mm })),
    ['DIN 931', 'DIN 933', 'DIN 931/933', comparison.source.number],
  ),
  ...nominalWidths(
    'hex',
    textbook,
    textbook.rows.map((row) => ({ thread: row.thread, acrossFlatsMm: row.s_regular_mm })),
  ),
];
