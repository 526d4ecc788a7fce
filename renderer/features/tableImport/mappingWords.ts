import type { ImportTarget, Mapping, UnitsSeen } from '../../engine/tableImport/index.ts';
import type { Unit } from '../../engine/units/index.ts';

/** What a person is to know of the units in a column; null where all is plain. */
export function unitsText(
  { units, bare }: UnitsSeen,
  headerUnit: Unit | null,
): { text: string; isDoubt: boolean } | null {
  const counted = units.map(({ unit, cells }) => `${cells} in ${unit}`);
  if (bare > 0) counted.push(headerUnit === null ? `${bare} without a unit` : `${bare} in ${headerUnit} by the column`);
  if (counted.length === 0) return null;
  const isDoubt = counted.length > 1 || (bare > 0 && headerUnit === null);
  return { text: counted.length > 1 ? `mixed: ${counted.join(', ')}` : (counted[0] ?? ''), isDoubt };
}

/** Names of ours in the order they are asked about: those needed and those fed, then the rest. */
export function columnOrder(target: ImportTarget, mapping: Mapping): { shown: string[]; more: string[] } {
  const fed = new Set(mapping.map(({ column }) => column));
  const needed = neededNames(target, fed);
  const names = target.columns.map(({ name }) => name);
  return {
    shown: names.filter((name) => fed.has(name) || needed.has(name)),
    more: names.filter((name) => !fed.has(name) && !needed.has(name)),
  };
}

/** The needed set that lacks least of what is fed. */
export function neededNames(target: ImportTarget, fed: ReadonlySet<string | null>): ReadonlySet<string> {
  const lacking = (set: readonly string[]): number => set.filter((name) => !fed.has(name)).length;
  return new Set(target.needed.toSorted((a, b) => lacking(a) - lacking(b))[0] ?? []);
}
