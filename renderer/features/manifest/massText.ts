import { convertValue, roundNominal } from '../../engine/units/index.ts';

/** Masses stand in kg with the pound in brackets, whatever else is shown: both crews weigh with what they have. */
export function massText(massKg: number): string {
  return `${kgText(massKg)} kg (${roundNominal(convertValue(massKg, 'kg', 'lb'), 2)} lb)`;
}

export function kgText(massKg: number): string {
  return roundNominal(massKg, 3);
}
