import { RefusedError } from '../errors.ts';
import { readUnit, type Kind, type Unit } from '../units/index.ts';

/** A name as it is compared: letters and digits alone, whatever their case. */
export function bareName(name: string): string {
  return name
    .normalize('NFKD')
    .replace(/[^\p{L}\p{N}]/gu, '')
    .toLowerCase();
}

/** Ways to put a unit behind a column's name: "torqueMin (N·m)", "torqueMin [N·m]", "torqueMin, N·m", "torqueMin / N·m", "torqueMin in N·m". */
const forms = [
  /^(?<name>.+?)\s*\((?<unit>[^()]+)\)$/,
  /^(?<name>.+?)\s*\[(?<unit>[^[\]]+)\]$/,
  /^(?<name>.+?)\s*,\s*(?<unit>[^,]+)$/,
  /^(?<name>.+?)\s*\/\s*(?<unit>[^/]+)$/,
  /^(?<name>.+?)\s+in\s+(?<unit>\S+)$/,
  /^(?<name>.+?)[_ ](?<unit>\S+)$/,
];

/** A header's name, and the unit behind it where one can be told in one way only. */
export interface NamedColumn {
  name: string;
  unit: Unit | null;
  kind: Kind | null;
  /** Why what stands behind the name is no unit that can be used. */
  doubt: string | null;
}

/**
 * A header taken apart into a name and a unit.
 *
 * @param known - whether a name, bare, is one that is known: only behind such a name is a unit looked for
 * @returns the header itself where it holds no unit
 * @throws what is no refusal of a unit, as it came
 */
export function nameAndUnit(header: string, known: (bare: string) => boolean): NamedColumn {
  const whole = header.trim();
  if (known(bareName(whole))) return { name: whole, unit: null, kind: null, doubt: null };
  for (const form of forms) {
    const { name = '', unit = '' } = form.exec(whole)?.groups ?? {};
    if (name === '' || !known(bareName(name))) continue;
    try {
      return { name, ...readUnit(unit), doubt: null };
    } catch (error) {
      if (!(error instanceof RefusedError)) throw error;
      return { name, unit: null, kind: null, doubt: error.refusal.message };
    }
  }
  return { name: whole, unit: null, kind: null, doubt: null };
}
