import type { Finding } from '../../../shared-types/judged.ts';
import { convertValue, showNumber } from '../../engine/units/index.ts';
import type { Unit, UnitsShown } from '../../engine/units/index.ts';
import { forceUnitsFor, otherTorqueUnit, unitsShown } from '../bench/shown.ts';
import { shownText } from '../steps/shownText.ts';

/** A message stands as it was written; turned into other units only where those alone are asked for. */
export function findingText(message: string, units: UnitsShown): string {
  return units === 'both' || units === 'as-written' ? message : shownText(message, units);
}

/**
 * The two numbers compared, in every unit asked for: made from the numbers themselves, for a message has them rounded.
 * Null where there are not two of them, or the message has them in full.
 */
export function findingNumbers(finding: Finding, torqueUnit: Unit, units: UnitsShown): string | null {
  const { rule, value, limit, unit } = finding;
  if (value === undefined || limit === undefined || units === 'as-written' || rule === 'dual-unit') return null;
  const pair = pairFor(unit, torqueUnit, Math.max(value, limit));
  if (pair === null) return null;
  const { from, own, other } = pair;
  return unitsShown(own, other, units)
    .map((to) => {
      const [one, two] = [value, limit].map((number) => showNumber(convertValue(number, from, to)));
      return `${one} against ${two} ${to}`;
    })
    .join(' · ');
}

function pairFor(unit: string | undefined, torque: Unit, size: number): { from: Unit; own: Unit; other: Unit } | null {
  if (unit === 'N·m') return { from: unit, own: torque, other: otherTorqueUnit(torque, size) };
  if (unit === 'N') {
    const [own, other] = forceUnitsFor(torque, size);
    return { from: unit, own, other };
  }
  if (unit === 'mm') return { from: unit, own: 'mm', other: 'in' };
  return unit === 'MPa' ? { from: unit, own: 'MPa', other: 'ksi' } : null;
}
