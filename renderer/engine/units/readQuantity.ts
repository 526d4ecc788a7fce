import { RefusedError } from '../errors.ts';
import { convertValue } from './convert.ts';
import type { Kind, Unit } from './kinds.ts';
import { readNumber, type Numeral } from './readNumber.ts';
import { namesUnit, readUnit } from './readUnit.ts';

export interface Quantity {
  value: number;
  unit: Unit;
  kind: Kind;
  /** The text as it was typed. */
  typed: string;
}

/** Longer than any quantity a person types; keeps hostile texts from costing anything. */
const longestText = 200;

/**
 * A typed quantity: one number and one unit, "45 lbf·ft", "7/16 in", "1-1/8 in".
 *
 * @param text - as typed
 * @param kind - the kind the place takes, where it takes one only
 * @returns the number in the unit as typed, and the text itself, which stays the authority
 * @throws RefusedError unreadable-quantity, ambiguous-quantity (no unit, "1,200", "45 nm"), unknown-unit, wrong-kind, not-finite;
 *   each with the text as `value` and the character it stopped at as `position`
 * @source the unit spellings of the headless contract
 * @validity negative values are read; callers bound them
 * @example readQuantity('45 ft-lb', 'torque') // { value: 45, unit: 'lbf·ft', kind: 'torque', typed: '45 ft-lb' }
 */
export function readQuantity(text: string, kind?: Kind): Quantity {
  const { numeral, unit, kind: found } = readParts(text, kind);
  return { value: numeral.value, unit, kind: found, typed: text };
}

/**
 * The same reading with the number as typed and exact, for showing and converting limits.
 *
 * @throws RefusedError as readQuantity does
 */
export function readParts(text: string, kind?: Kind): { numeral: Numeral; unit: Unit; kind: Kind } {
  if (typeof text !== 'string') throw notText(text, kind);
  if (text.length > longestText) {
    throw new RefusedError({
      code: 'unreadable-quantity',
      message: `A quantity of ${text.length} characters is not read; the longest taken has ${longestText}.`,
      value: `${text.slice(0, 40)}…`,
      position: longestText,
    });
  }
  const numeral = readNumber(text);
  const rest = text.slice(numeral.end);
  const position = numeral.end + rest.length - rest.trimStart().length;
  if (rest.trim() === '') {
    throw new RefusedError({
      code: 'ambiguous-quantity',
      message: noUnit(text, numeral.text, kind),
      value: text,
      position,
    });
  }
  refuseSecondNumber(text, numeral.end, position);
  try {
    return { numeral, ...readUnit(rest.trim(), kind) };
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    throw new RefusedError({ ...error.refusal, message: `"${text}": ${error.refusal.message}`, value: text, position });
  }
}

/** A unit ends where a second number begins; what stands between them and is no unit stopped the reading before that. */
function refuseSecondNumber(text: string, end: number, unitAt: number): void {
  const rest = text.slice(end);
  const second = /(?:^|\s|\s*[,;/]\s*)[+\p{Pd}−]?\d/u.exec(rest);
  if (second === null) return;
  const between = rest.slice(0, second.index).trim();
  const secondAt = end + second.index + second[0].length - second[0].trimStart().length;
  const isUnit = namesUnit(between);
  throw new RefusedError({
    code: 'unreadable-quantity',
    message:
      isUnit || between === ''
        ? `"${text}" holds a second number: one number and one unit are asked for.`
        : `"${text}": "${between}" is no unit, and a second number follows: one number and one unit are asked for.`,
    value: text,
    position: isUnit ? secondAt : unitAt,
  });
}

/** Two right spellings for the place, so that the message can be followed. */
const exampleUnits: Record<Kind, readonly [Unit, Unit]> = {
  torque: ['N·m', 'lbf·ft'],
  length: ['mm', 'in'],
  force: ['N', 'lbf'],
  mass: ['kg', 'lb'],
  area: ['mm2', 'in2'],
  volume: ['L', 'in3'],
  stress: ['MPa', 'psi'],
  angle: ['deg', 'rad'],
};

function noUnit(text: string, numeral: string, kind: Kind = 'torque'): string {
  const [one, other] = exampleUnits[kind];
  return `"${text}" has no unit: write it with one, as "${numeral} ${one}" or "${numeral} ${other}".`;
}

function notText(value: unknown, kind: Kind | undefined): RefusedError {
  return typeof value === 'number'
    ? new RefusedError({
        code: 'ambiguous-quantity',
        message: `A bare number is no quantity: ${noUnit(String(value), String(value), kind)}`,
        value,
        position: 0,
      })
    : new RefusedError({
        code: 'wrong-shape',
        message: 'A quantity is a text with a number and a unit, as "45 lbf·ft".',
        value,
        position: 0,
      });
}

/**
 * A typed quantity in the unit asked for.
 *
 * @returns the number in `unit`, within 1e-15 relative of what was typed
 * @throws RefusedError as readQuantity and convertValue do
 * @source the exact definitions in kinds.ts
 * @validity units of the kind named
 * @example quantityIn('7/16 in', 'length', 'mm') // 11.1125, to the last bit or one beside it
 */
export function quantityIn(text: string, kind: Kind, unit: Unit): number {
  const quantity = readQuantity(text, kind);
  return convertValue(quantity.value, quantity.unit, unit);
}
