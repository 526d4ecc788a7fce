import type { Setting } from '../../../shared-types/bag.ts';
import type { ResolvedPlan, ResolvedStep } from '../plan/resolved.ts';
import { allUnits, convertValue, kindOf, limitIn, roundNominal, showNumber, showQuantity } from '../units/index.ts';
import type { Unit, UnitsShown } from '../units/index.ts';
import type { CardValue } from './card.ts';

/** "12 of 12", "3 pieces": a count with what is counted. */
export function countText(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** An item by its code, with its name where it has one. */
export function itemText(plan: ResolvedPlan, id: string): string {
  const name = plan.carried.get(id)?.name ?? plan.fasteners.get(id)?.name ?? id;
  return name === id ? id : `${id} ${name}`;
}

/** A place of the plan by its name; the words every plan has by theirs. */
export function placeText(plan: ResolvedPlan, id: string): string {
  if (id === 'bag') return 'the bag';
  if (id === 'site') return 'its hole';
  return plan.source.places?.find((place) => place.id === id)?.name ?? plan.bags.get(id)?.name ?? id;
}

/** A torque that is not to be passed, never more than it is: three figures, the rest cut off. */
export function limitText(nm: number, { shown }: ResolvedStep, units: UnitsShown): string {
  const unit = shown.torque;
  const exact = Number(convertValue(nm, 'N·m', unit).toPrecision(12));
  const decimals = Math.max(0, 2 - Math.floor(Math.log10(Math.max(exact, 1e-9))));
  const text = limitIn(`${exact} ${unit}`, 'maximum', { unit, decimals });
  const other: Unit = unit === 'N·m' ? (exact < 20 ? 'lbf·in' : 'lbf·ft') : 'N·m';
  if (units === 'as-written') return `${text} ${unit}`;
  const otherExact = Number(convertValue(nm, 'N·m', other).toPrecision(12));
  const otherDecimals = Math.max(0, 2 - Math.floor(Math.log10(Math.max(otherExact, 1e-9))));
  return `${text} ${unit} (${limitIn(`${otherExact} ${other}`, 'maximum', { unit: other, decimals: otherDecimals })} ${other})`;
}

/** The unit of a tool's scale, where it is one of torque. */
function torqueUnit(setting: Setting): Unit | null {
  const unit = allUnits.find((known) => known === setting.unit);
  return unit !== undefined && kindOf(unit) === 'torque' ? unit : null;
}

/** A value on the tool's own scale; beside it the same in the authority's unit, or in the other system where both are one. */
export function settingValue(setting: Setting, step: ResolvedStep, units: UnitsShown): CardValue {
  const unit = torqueUnit(setting);
  const number = showNumber(setting.value, 6);
  if (unit === null) return { kind: 'words', text: `${number} ${setting.unit}` };
  const authority = step.shown.torque;
  if (authority !== unit) {
    const inAuthority = showNumber(convertValue(setting.value, unit, authority));
    return { kind: 'set', number, unit, beside: `(${inAuthority} ${authority})` };
  }
  const text = `${number} ${unit}`;
  const both = showQuantity(text, units === 'as-written' ? 'as-written' : 'both');
  return { kind: 'set', number, unit, beside: both.slice(text.length).trim() };
}

/** Whose unit the callout is written in, and whose the tool is set in. */
export function authorityText(setting: Setting, step: ResolvedStep): string {
  return step.shown.torque === setting.unit
    ? `The callout is the authority, in ${setting.unit}, which is the tool’s unit too.`
    : `The callout is the authority, in ${step.shown.torque}; the tool is set in ${setting.unit}.`;
}

/** "120 N (27 lbf)". */
export function forceText(newtons: number): string {
  return `${roundNominal(newtons, 0)} N (${roundNominal(convertValue(newtons, 'N', 'lbf'), 0)} lbf)`;
}
