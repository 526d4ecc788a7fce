import type { CalloutLine } from '../../../shared-types/inspection.ts';
import { RefusedError } from '../../engine/errors.ts';
import { readQuantity, showBand, showQuantity } from '../../engine/units/index.ts';
import type { Unit, UnitsShown } from '../../engine/units/index.ts';
import { spanIn } from '../bench/shown.ts';

/** A span in N·m in the callout's own unit, and the other where it is asked for. */
export function spanShown(span: { min: number; max: number }, unit: Unit, units: UnitsShown): string {
  return spanIn(span, 'N·m', unit, units);
}

/** The band as a person typed it, in the units asked for; what cannot be read stands as it was typed. */
export function bandWords(band: CalloutLine['band'], units: UnitsShown): string {
  const typed = 'text' in band ? band.text : `${band.min} to ${band.max}`;
  try {
    if (!('text' in band)) return showBand(band.min, band.max, units);
    return isQuantity(band.text) ? showQuantity(band.text, units) : band.text;
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    return typed;
  }
}

function isQuantity(text: string): boolean {
  try {
    readQuantity(text, 'torque');
    return true;
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    return false;
  }
}

/** In a cell is room for one unit. */
export const oneUnit = (units: UnitsShown): UnitsShown => (units === 'both' ? 'as-written' : units);
