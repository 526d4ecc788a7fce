import { convertValue, limitIn, roundNominal } from '../../engine/units/index.ts';

/** Masses stand in kg with the pound in brackets, whatever else is shown: both crews weigh with what they have. */
export function massText(massKg: number): string {
  return `${kgText(massKg)} kg (${roundNominal(convertValue(massKg, 'kg', 'lb'), 2)} lb)`;
}

/** A bag's limit, which no rounding may raise. */
export function massLimitText(typed: string): string {
  const [kg, lb] = [
    limitIn(typed, 'maximum', { unit: 'kg', decimals: 3 }),
    limitIn(typed, 'maximum', { unit: 'lb', decimals: 2 }),
  ];
  return `${kg} kg (${lb} lb)`;
}

export function kgText(massKg: number): string {
  return roundNominal(massKg, 3);
}
