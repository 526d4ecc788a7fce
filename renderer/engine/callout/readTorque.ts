import { RefusedError } from '../errors.ts';
import type { BandNm } from '../plan/resolved.ts';
import type { CellQuantity, RowReading } from '../sheet/index.ts';
import type { Unit } from '../units/index.ts';
import { bandOf, type BandEnd } from './bandText.ts';
import type { Callout, PrintedEnd } from './callout.ts';

const torque = { kind: 'torque', unit: 'N·m', least: 'zero' } as const;
/** No wrench gives more (common practice, no source); figures beyond it are slips of the pen. */
const torqueMostNm = 1e7;
/** As many passes as a person writes. */
const passesMost = 20;
/** More turns than any fastener is tightened by after it is snug (common practice, no source). */
const angleMostDeg = 3600;

/** The band called out: both ends, or a torque and what it is kept within. */
export function readBand(row: RowReading): { band: BandNm; unit: Unit } | null {
  const middle = row.text('torque') !== null || row.text('tolerance') !== null;
  const ends = middle && (row.text('torqueMin') !== null || row.text('torqueMax') !== null);
  if (ends) {
    row.refuse('torque', 'contradiction', 'and torqueMin, torqueMax are given together: one of the two is asked for');
    return null;
  }
  return middle ? readAround(row) : readEnds(row);
}

function readEnds(row: RowReading): { band: BandNm; unit: Unit } | null {
  const [min, max] = [needed(row, 'torqueMin'), needed(row, 'torqueMax')];
  if (min === null || max === null) return null;
  return bounded(row, 'torqueMax', max, { minNm: min.value, maxNm: max.value }, min.unit);
}

function readAround(row: RowReading): { band: BandNm; unit: Unit } | null {
  const middle = needed(row, 'torque');
  const halfNm = readTolerance(row, middle);
  if (middle === null || halfNm === null) return null;
  // 10 - 10·100 % leaves nothing but the rounding of a double.
  const minNm = middle.value - halfNm;
  if (minNm < -1e-9 * middle.value) {
    row.refuse(
      'tolerance',
      'out-of-range',
      `is more than the torque itself, ${middle.text}`,
      row.text('tolerance') ?? '',
    );
    return null;
  }
  const band = { minNm: Math.max(0, minNm), maxNm: middle.value + halfNm };
  return bounded(row, 'torque', middle, band, middle.unit);
}

/** "± 5 N·m", "5 N·m" or "10 %". */
function readTolerance(row: RowReading, middle: CellQuantity | null): number | null {
  const text = row.sized('tolerance');
  if (text === null) {
    row.missing('tolerance');
    return null;
  }
  if (text.endsWith('%')) {
    const share = row.number('tolerance', {
      isShare: true,
      holds: (value) => value >= 0 && value <= 1,
      range: '0 to 100 %',
    });
    return share === null || middle === null ? null : share * middle.value;
  }
  return row.attempt('tolerance', text, () => {
    const half = row.readQuantity(text.replace(/^(?:±|\+\/-)\s*/, ''), torque).value;
    if (half >= 0) return half;
    throw new RefusedError({ code: 'out-of-range', message: 'must be 0 or more' });
  });
}

function needed(row: RowReading, name: string): CellQuantity | null {
  const found = row.quantity(name, torque);
  if (found === null) row.missing(name);
  return found;
}

function bounded(
  row: RowReading,
  name: string,
  typed: CellQuantity,
  band: BandNm,
  unit: Unit,
): { band: BandNm; unit: Unit } | null {
  if (band.maxNm > 0 && Math.max(band.minNm, band.maxNm) <= torqueMostNm) return { band, unit };
  row.refuse(name, 'out-of-range', `must be more than 0, at most ${torqueMostNm} N·m`, typed.text);
  return null;
}

/** The same band in a second unit, each end with its last printed digit. */
export function readAlternative(row: RowReading): Callout['alternative'] {
  const text = row.sized('torqueAlt');
  if (text === null) return null;
  return row.attempt('torqueAlt', text, () => {
    const { min, max } = bandOf(row, text, torque);
    return { min: printed(min), max: printed(max) };
  });
}

function printed({ number, lastDigit, digits, unit, value }: BandEnd): PrintedEnd {
  if (value <= torqueMostNm && value >= 0) return { value: number, lastDigit, digits, unit, nm: value };
  throw new RefusedError({ code: 'out-of-range', message: `must be 0 or more, at most ${torqueMostNm} N·m` });
}

/** Bands one after another, the last of them the callout's own: "20-25 N·m; 40-45 N·m". */
export function readPasses(row: RowReading): BandNm[] {
  const text = row.sized('passes');
  if (text === null) return [];
  const read = row.attempt('passes', text, () => {
    const parts = text.split(/[;|]/);
    if (parts.length > passesMost)
      throw new RefusedError({
        code: 'out-of-range',
        message: `has ${parts.length} passes; at most ${passesMost} are read`,
      });
    return parts.map((part) => {
      const { min, max } = bandOf(row, part.trim(), torque);
      if (min.value < 0 || !(max.value > 0) || max.value > torqueMostNm)
        throw new RefusedError({ code: 'out-of-range', message: `"${part.trim()}" is no torque of a pass` });
      return { minNm: min.value, maxNm: max.value };
    });
  });
  return read ?? [];
}

/** The turn after the snug torque: "60 deg ± 5 deg". */
export function readAngle(row: RowReading): Callout['angleDeg'] {
  const text = row.sized('angle');
  if (text === null) return null;
  return row.attempt('angle', text, () => {
    const { min, max } = bandOf(row, text, { kind: 'angle', unit: 'deg' });
    if (min.value < 0 || !(max.value > 0) || max.value > angleMostDeg)
      throw new RefusedError({ code: 'out-of-range', message: `must be more than 0, at most ${angleMostDeg} deg` });
    return { min: min.value, max: max.value };
  });
}
