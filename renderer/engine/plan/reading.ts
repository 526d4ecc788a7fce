import { RefusedError } from '../errors.ts';
import { convertValue, quantityIn, readQuantity } from '../units/index.ts';
import type { Kind, Unit } from '../units/index.ts';
import type { Refusals } from '../json/refusals.ts';
import { atMost } from '../tolerance.ts';
import { squareSideMm } from './squares.ts';

/** Far beyond anything carried, turned or reached; sums of such amounts still hold their last gram. */
const amountMost = 1e6;

/** What stands in for a quantity that has been refused: nothing is compared with it. */
const unread = Number.NaN;

/** Reads a plan's quantities one field at a time; what cannot be read is gathered and never computed with. */
export class Reading {
  readonly refusals: Refusals;

  constructor(refusals: Refusals) {
    this.refusals = refusals;
  }

  lengthMm(field: string, text: string): number {
    return this.amount(field, text, 'length', 'mm');
  }

  massKg(field: string, text: string): number {
    return this.amount(field, text, 'mass', 'kg');
  }

  volumeL(field: string, text: string): number {
    return this.amount(field, text, 'volume', 'L');
  }

  torqueNm(field: string, text: string): number {
    return this.amount(field, text, 'torque', 'N·m');
  }

  /** A size that something must have: more than nothing. */
  extentMm(field: string, text: string): number {
    return this.positive(field, text, this.lengthMm(field, text));
  }

  strengthNm(field: string, text: string): number {
    return this.positive(field, text, this.torqueNm(field, text));
  }

  squareMm(field: string, text: string): number {
    const sideMm = this.lengthMm(field, text);
    return Number.isNaN(sideMm) ? unread : this.refusals.attempt(field, text, unread, () => squareSideMm(sideMm));
  }

  /** Whether a least amount is above a greatest one; never where one of them was refused. */
  isAbove(least: number, greatest: number): boolean {
    return ![least, greatest].some(Number.isNaN) && !atMost(least, greatest);
  }

  optional<T>(text: string | undefined, read: (text: string) => T): T | null {
    return text === undefined ? null : read(text);
  }

  /** A torque as typed: its number, its unit, and the same in N·m. */
  scaled(field: string, text: string): { value: number; unit: Unit; nm: number } {
    return this.refusals.attempt(field, text, { value: unread, unit: 'N·m', nm: unread }, () => {
      const { value, unit } = readQuantity(text, 'torque');
      if (value <= 0) throw outOfRange('more than 0');
      return { value, unit, nm: convertValue(value, unit, 'N·m') };
    });
  }

  /** The unit a quantity is typed in; null where there is none to read, which another field's reading has refused. */
  unitOf(text: string | undefined): Unit | null {
    if (text === undefined) return null;
    try {
      return readQuantity(text).unit;
    } catch (error) {
      if (error instanceof RefusedError) return null;
      throw error;
    }
  }

  private amount(field: string, text: string, kind: Kind, unit: Unit): number {
    return this.refusals.attempt(field, text, unread, () => {
      const value = quantityIn(text, kind, unit);
      if (value < 0) throw outOfRange('0 or more');
      if (value > amountMost) throw outOfRange(`at most ${amountMost} ${unit}`);
      return value;
    });
  }

  private positive(field: string, text: string, value: number): number {
    return this.refusals.attempt(field, text, unread, () => {
      if (value === 0) throw outOfRange('more than 0');
      return value;
    });
  }
}

function outOfRange(range: string): RefusedError {
  return new RefusedError({ code: 'out-of-range', message: `must be ${range}` });
}
