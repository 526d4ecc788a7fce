import { threadTables } from '../handbook/threads.ts';
import type { RefusedError } from '../errors.ts';
import type { Cursor } from './cursor.ts';
import { isPossible } from './possible.ts';
import { atMost } from '../tolerance.ts';

const held = threadTables['unified-series-asme-b1.1'];

/** Decimals are rounded to three or four places on drawings: they mean the held size this near. */
const sameSizeIn = 0.0005;

/** A size as typed, before the threads per inch tell numbers from inches. */
export interface TypedSize {
  form: 'number' | 'whole' | 'fraction' | 'decimal';
  /** The number's name, or the inches typed. */
  name: string;
  /** Null for a size by its number. */
  inches: number | null;
  position: number;
}

export interface UnifiedSize {
  /** "10" for number 10, "1/4", "1-1/8", or decimals where no size is held. */
  name: string;
  majorIn: number;
  isNumber: boolean;
}

const inchMark = String.raw`(?:\s*(?:"|″|in\b))?`;

/**
 * The size at the head of a unified designation, as typed; undefined where none stands there.
 *
 * @throws RefusedError unreadable-thread where it is no size
 */
export function takeSize(at: Cursor): TypedSize | undefined {
  at.take(/\s+/);
  const position = at.index;
  const number = at.take(/(?:#|no\.?)\s*(?<name>\d+)(?![\d./])/i)?.['name'];
  if (number !== undefined) return { form: 'number', name: numberName(at, number, position), inches: null, position };
  const parts =
    at.take(
      new RegExp(
        String.raw`(?:(?<whole>[1-9]\d?)(?:-|\s+))?(?<top>[1-9]\d{0,2})\/(?<bottom>\d{1,3})(?![\d./])${inchMark}`,
      ),
    ) ??
    at.take(new RegExp(String.raw`(?<decimal>\d{0,2}\.\d+)(?![\d./])${inchMark}`)) ??
    at.take(new RegExp(String.raw`(?<single>0\d*|\d{1,2})(?![\d./])(?<mark>${inchMark})`));
  if (parts === undefined) return undefined;
  const { whole = '0', top, bottom, decimal, single, mark } = parts;
  if (top !== undefined) {
    const fraction = Number(top) / Number(bottom);
    if (Number(bottom) === 0 || (whole !== '0' && fraction >= 1))
      throw at.refuse('has a fraction that is none.', 'unreadable-thread', position);
    return {
      form: 'fraction',
      name: whole === '0' ? `${top}/${bottom}` : `${whole}-${top}/${bottom}`,
      inches: Number(whole) + fraction,
      position,
    };
  }
  if (decimal !== undefined) return { form: 'decimal', name: decimal, inches: Number(decimal), position };
  if (single === undefined) return undefined;
  const marked = mark !== undefined && mark.trim() !== '';
  const name = numberName(at, single, position);
  return { form: marked ? 'fraction' : 'whole', name, inches: Number(single), position };
}

/** A size's digits as they stand: 00 and 000 are sizes of their own below number 0, and no other size is written with zeros in front. */
function numberName(at: Cursor, digits: string, position: number): string {
  if (!/^0\d/.test(digits)) return digits;
  if (/^0+$/.test(digits)) throw notHeld(at, digits, position);
  const meant = digits.replace(/^0+/, '');
  throw at.refuse(
    `names number size ${digits}: no size is written with a zero in front; write "${meant}" if that is meant.`,
    'unreadable-thread',
    position,
  );
}

/**
 * The size meant, told by its form, by the sizes held and, for a bare whole number, by the threads per inch.
 *
 * @throws RefusedError unreadable-thread, not-held, out-of-range
 */
export function decideSize(at: Cursor, typed: TypedSize, threadsPerInch: number): UnifiedSize {
  const { inches } = typed;
  if (inches === null) {
    const size = numberSize(typed.name);
    if (size === undefined) throw notHeld(at, typed.name, typed.position);
    return size;
  }
  if (typed.form !== 'whole') {
    const slackIn = typed.form === 'decimal' ? sameSizeIn : 0;
    const near = held.rows.find((row) => atMost(Math.abs(row.major_diameter_in - inches), slackIn));
    if (near !== undefined) return { name: near.size, majorIn: near.major_diameter_in, isNumber: isNumberRow(near) };
    return { name: typed.form === 'decimal' ? String(inches) : typed.name, majorIn: inches, isNumber: false };
  }
  const asNumber = numberSize(typed.name);
  const asInches: UnifiedSize = { name: typed.name, majorIn: inches, isNumber: false };
  if (asNumber === undefined) return asInches;
  const isHeld = (size: UnifiedSize) =>
    held.rows.some((row) => row.major_diameter_in === size.majorIn && row.threads_per_inch === threadsPerInch);
  if (isHeld(asNumber)) return asNumber;
  if (isHeld(asInches)) return asInches;
  const couldBe = [asNumber, asInches].filter(
    (size) =>
      size.majorIn <= unifiedRange.majorMaxIn && isPossible({ majorMm: size.majorIn, pitchMm: 1 / threadsPerInch }),
  );
  const [only, second] = couldBe;
  if (only !== undefined && second === undefined) return only;
  if (only === undefined) return asInches;
  throw at.refuse(
    `can be number ${typed.name} or ${typed.name} inches: write "No. ${typed.name}-${threadsPerInch}" or "${typed.name}.0-${threadsPerInch}".`,
    'unreadable-thread',
    typed.position,
  );
}

/** ASME B1.1 lists sizes from number 0 to 6 inches (memory). */
export const unifiedRange = { majorMinIn: 0.06, majorMaxIn: 6, threadsPerInchMax: 127 };

/** A whole number that is not the inches themselves. */
function isNumberRow(row: { size: string; major_diameter_in: number }): boolean {
  return /^\d+$/.test(row.size) && row.major_diameter_in !== Number(row.size);
}

function numberSize(name: string): UnifiedSize | undefined {
  const row = held.rows.find((candidate) => candidate.size === name && isNumberRow(candidate));
  return row === undefined ? undefined : { name, majorIn: row.major_diameter_in, isNumber: true };
}

function notHeld(at: Cursor, name: string, position: number): RefusedError {
  const names = [...new Set(held.rows.filter(isNumberRow).map((row) => Number(row.size)))].toSorted((a, b) => a - b);
  return at.refuse(`names number size ${name}; ${held.source.number} holds ${names.join(', ')}.`, 'not-held', position);
}
