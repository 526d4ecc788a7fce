import { RefusedError } from '../../engine/errors.ts';
import { showLimit, showNumber, showQuantity } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import type { FieldType, ItemField } from './itemFields.ts';

/** A typed quantity in the units asked for; what names a size instead of measuring one stays as typed. */
export function quantityText(text: string, units: UnitsShown, limit?: 'minimum' | 'maximum'): string {
  try {
    return limit === undefined ? showQuantity(text, units) : showLimit(text, limit, units);
  } catch (error) {
    if (error instanceof RefusedError) return text;
    throw error;
  }
}

/** A field's value as facts and lists show it. */
export function fieldText({ type }: Pick<ItemField, 'type'>, value: unknown, units: UnitsShown): string {
  if (value === undefined || value === null) return '';
  if (Array.isArray(value)) return value.map((one) => elementText(type, one, units)).join(', ');
  return elementText(type, value, units);
}

function elementText(type: FieldType, value: unknown, units: UnitsShown): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'number') return type.is === 'share' ? `${value} (${showNumber(value * 100)} %)` : String(value);
  if (typeof value === 'object') return stressesText(value);
  const text = String(value);
  if (type.is === 'quantity') return quantityText(text, units, type.limit);
  if (type.is === 'lines') return quantityText(text, units);
  if (type.is === 'choice') return type.choices.find((choice) => choice.value === text)?.label ?? text;
  return text;
}

const stresses = [
  ['proofMPa', 'proof'],
  ['yieldMPa', 'yield'],
  ['ultimateMPa', 'ultimate'],
] as const;

function stressesText(value: object | null): string {
  const given: Record<string, unknown> = { ...value };
  return stresses
    .flatMap(([key, word]) => (given[key] === undefined ? [] : [`${word} ${String(given[key])} MPa`]))
    .join(', ');
}
