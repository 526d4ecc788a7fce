/** The engine's texts of checks carry figures in the step's own units; here they turn into the units asked for. */
import type { CheckName } from '../../../shared-types/bag.ts';
import { allUnits, kindOf, showBand, showQuantity } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';

const escaped = (text: string): string => text.replaceAll(/[.*+?^${}()|[\]\\]/g, String.raw`\$&`);
const longestFirst = allUnits.toSorted((a, b) => b.length - a.length).map(escaped);
const number = String.raw`\d+(?:\.\d+)?(?:e-?\d+)?(?:[- ]\d+\/\d+|\/\d+)?`;
const figure = new RegExp(`(?<![\\w.,/-])(${number})(?:–(${number}))? (${longestFirst.join('|')})(?![\\w·/])`, 'g');

/** A text with every quantity in it as the user wants quantities shown; angles get their sign. */
export function shownText(text: string, mode: UnitsShown): string {
  return text.replaceAll(figure, (whole: string, from: string, to: string | undefined, unit: string) => {
    if (unit === 'deg') return `${from}°`;
    const known = allUnits.find((one) => one === unit);
    if (known === undefined || kindOf(known) === 'angle') return whole;
    return to === undefined
      ? showQuantity(`${from} ${unit}`, mode)
      : showBand(`${from} ${unit}`, `${to} ${unit}`, mode);
  });
}

/** What a check has or needs. Drives are named squares and stock names ids: neither holds a quantity to convert. */
export function shownFigure(check: CheckName, text: string, mode: UnitsShown): string {
  return check === 'drive' || check === 'stock' ? text : shownText(text, mode);
}

/** For a cell with room for one unit: the other one only where it is asked for alone. */
export function shownOnce(text: string, mode: UnitsShown): string {
  return shownText(text, mode === 'both' ? 'as-written' : mode);
}
