import type { Finding } from '../../../shared-types/judged.ts';
import type { MarkState } from '../../components/StateMark/StateMark.tsx';
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

/** "4", "4, 1 accepted", "2 accepted": what is accepted is no less found. */
export function findingsText(count: number, accepted: number): string {
  if (count === 0) return '–';
  if (accepted === 0) return String(count);
  return accepted === count ? `${count} accepted` : `${count}, ${accepted} accepted`;
}

/** The shape of a finding: which side of its limit its number lies on, where it has one. */
export function markOf({ severity, value, limit }: Finding): MarkState {
  if (severity === 'query') return 'indeterminate';
  if (value === undefined || limit === undefined || value === limit) return 'nonconforming';
  return value > limit ? 'nonconforming-over' : 'nonconforming-under';
}
