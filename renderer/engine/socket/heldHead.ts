import type { Citation } from '../../../shared-types/handbook.ts';
import type { HeadForm } from '../../../shared-types/plan.ts';
import { RefusedError } from '../errors.ts';
import { mmOfPrintedInches } from '../handbook/printed.ts';
import { citationOf, type Citable } from '../handbook/rows.ts';
import { threadTables } from '../handbook/threads.ts';
import { readQuantity } from '../units/index.ts';

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
  /** Printed by itself for one socket whose widths across flats could not be read. */
  acrossCornersMinMm: number | null;
  /** Numbers of the documents that have this width: in a comparison of two standards, of the column's own. */
  documents: readonly string[];
  citation: Citation;
}

/** A table of heads: where it was printed, and what else it is called. */
export type HeadTable = Citable & { aliases: readonly string[] };

interface Printed {
  table: HeadTable;
  headForm: HeadForm;
  limits: HeadLimits | null;
  acrossCornersMinMm?: number;
  documents?: readonly string[];
}

/** A metric head out of a row: the width in millimetres. */
export function metricHead(x: Printed & { thread: string; acrossFlatsMm: number }): HeldHead {
  return {
    ...common(x),
    system: 'metric',
    size: x.thread,
    majorMm: metricMajorMm(x.thread),
    nominal: `${x.acrossFlatsMm} mm`,
    nominalMm: x.acrossFlatsMm,
  };
}

/** An inch head out of a row: the width as a fraction, of which a printed decimal is only the rounding. */
export function inchHead(x: Printed & { size: string; majorMm: number; width: string }): HeldHead {
  return {
    ...common(x),
    system: 'unified',
    size: x.size,
    majorMm: x.majorMm,
    nominal: `${x.width} in`,
    nominalMm: mmOfFraction(x.width),
  };
}

/**
 * Inches as a fraction in millimetres: a width printed as a decimal too is only its rounding, 5/64 as .0781.
 *
 *   1 in = 25.4 mm
 *
 * @param inches - as printed [in]: "1-1/8", "0.050"
 * @returns [mm], the nearest double to the exact value
 * @throws RefusedError unreadable-quantity where the text is no number
 * @source the exact definition of the inch
 * @validity fractions to sixty-fourths and decimals of at most six places
 * @example mmOfFraction('5/64') // 1.984375
 */
export function mmOfFraction(inches: string): number {
  return mmOfPrintedInches(readQuantity(`${inches} in`, 'length').value);
}

function common(x: Printed): Pick<HeldHead, 'headForm' | 'limits' | 'acrossCornersMinMm' | 'documents' | 'citation'> {
  return {
    headForm: x.headForm,
    limits: x.limits,
    acrossCornersMinMm: x.acrossCornersMinMm ?? x.limits?.acrossCornersMinMm ?? null,
    documents: x.documents ?? [x.table.source.number, ...x.table.aliases],
    citation: citationOf(x.table),
  };
}

/** Diameter of "M10" [mm]. */
function metricMajorMm(size: string): number {
  const digits = /^M(\d+(?:\.\d+)?)$/.exec(size)?.[1];
  if (digits === undefined)
    throw new RefusedError({ code: 'unreadable-thread', message: `"${size}" is no metric size.` });
  return Number(digits);
}

/**
 * Diameter of an inch size as a table of heads prints it: numbers and inches share the name "1", and the number is the smaller.
 *
 * @param size - "#10" or "7/16"
 * @returns basic major diameter [mm]
 * @throws RefusedError unreadable-thread where no such size is held
 * @source ASME B1.1, series; unified-series-asme-b1.1 in data/SOURCES.md
 * @validity the sizes of the coarse and fine series
 * @example inchMajorMm('#10') // 4.826
 */
export function inchMajorMm(size: string): number {
  const isNumber = size.startsWith('#');
  const row = threadTables['unified-series-asme-b1.1'].rows.find(
    (held) => held.size === size.replace('#', '') && isNumber === held.major_diameter_in < 0.25,
  );
  if (row === undefined)
    throw new RefusedError({ code: 'unreadable-thread', message: `"${size}" is no inch size held.` });
  return mmOfPrintedInches(row.major_diameter_in);
}
