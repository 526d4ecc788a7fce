import { RefusedError } from '../errors.ts';
import { strengthTables } from '../handbook/strength.ts';
import { convertValue } from '../units/index.ts';
import { spellingsOf, squeezedName } from './spelling.ts';

const materials = strengthTables['materials-nasa-tm-106943'];

/**
 * Ultimate shear strength of a bolt or insert material.
 *
 *   lookup; 1 ksi = 6.894757293168361 MPa
 *
 * @param material - "A-286", "300-series CRES", "MIL-B-7838C"; spaces and case do not count
 * @returns Fsu [MPa]
 * @throws RefusedError not-held, naming the materials that are
 * @source NASA TM-106943, materials of its tables; materials-nasa-tm-106943 in data/SOURCES.md; text found
 * @validity the tempers of that memorandum only
 * @example shearStrengthMPa('A-286') // 586.05
 */
export function shearStrengthMPa(material: string): number {
  const asked = squeezedName(material);
  const row = materials.rows.find((held) => spellingsOf({ prefixes: [''], word: '', grade: held.material }).has(asked));
  if (row !== undefined) return convertValue(row.Fsu_ksi, 'ksi', 'MPa');
  throw new RefusedError({
    code: 'not-held',
    message: `No shear strength of "${material.slice(0, 80)}" is held. Held are: ${materials.rows.map((held) => held.material).join('; ')}.`,
    value: material.slice(0, 80),
  });
}
