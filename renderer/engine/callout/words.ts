import { converter, showNumber, type Unit } from '../units/index.ts';

const intoUnit = new Map<Unit, (nm: number) => number>();

/**
 * A torque in another unit. There are as many converters kept as units.
 *
 * @param nm - torque [N·m]
 */
export function inUnit(nm: number, unit: Unit): number {
  let convert = intoUnit.get(unit);
  if (convert === undefined) {
    convert = converter('N·m', unit);
    intoUnit.set(unit, convert);
  }
  return convert(nm);
}

/** One torque in a unit, as messages show it. */
export function torqueText(nm: number, unit: Unit): string {
  return `${showNumber(inUnit(nm, unit))} ${unit}`;
}

/** A force as messages show it: kN from 1000 N up. */
export function forceText(newton: number): string {
  return Math.abs(newton) >= 1000 ? `${showNumber(newton / 1000)} kN` : `${showNumber(newton)} N`;
}

/** A share in per cent. */
export function percentText(share: number): string {
  return `${showNumber(100 * share)} %`;
}
