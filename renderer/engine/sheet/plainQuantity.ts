import { RefusedError } from '../errors.ts';
import { converter, readUnit, type Kind, type Unit } from '../units/index.ts';

/** A quantity of a cell, in the unit asked for and as typed. */
export interface CellQuantity {
  value: number;
  /** The unit it was typed with. */
  unit: Unit;
  /** The number it was typed with, in that unit. */
  number: number;
  text: string;
}

interface KnownUnit {
  unit: Unit;
  into: (value: number) => number;
}

/** One decimal without exponent, one blank, and what may be a unit. */
const plainly = /^(\d{1,15}(?:\.\d{1,15})?) ([^\s\d][^\s\d]{0,11})$/;
/** As many spellings of units as are remembered. */
const spellingsMost = 500;

/**
 * Quantities as most are written, "45 lbf·ft", read without asking more than is needed: what they come to is what the units' own reader
 * gives, and whatever is written in any other way is left to that.
 */
export class PlainQuantities {
  private readonly known = new Map<Unit, Map<string, KnownUnit | null>>();

  /** @returns null where the text is to be read with care */
  read(text: string, { kind, unit }: { kind: Kind; unit: Unit }): CellQuantity | null {
    const [, digits, spelled] = plainly.exec(text) ?? [];
    if (digits === undefined || spelled === undefined) return null;
    const found = this.unitOf(spelled, kind, unit);
    if (found === null) return null;
    const number = Number(digits);
    return { value: found.into(number), unit: found.unit, number, text };
  }

  private unitOf(spelled: string, kind: Kind, into: Unit): KnownUnit | null {
    let spellings = this.known.get(into);
    if (spellings === undefined) {
      spellings = new Map();
      this.known.set(into, spellings);
    }
    const known = spellings.get(spelled);
    if (known !== undefined) return known;
    if (spellings.size >= spellingsMost) spellings.clear();
    const found = knownUnit(spelled, kind, into);
    spellings.set(spelled, found);
    return found;
  }
}

function knownUnit(spelled: string, kind: Kind, into: Unit): KnownUnit | null {
  try {
    const { unit } = readUnit(spelled, kind);
    return { unit, into: converter(unit, into) };
  } catch (error) {
    if (error instanceof RefusedError) return null;
    throw error;
  }
}
