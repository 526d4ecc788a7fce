import type { RefusalCode } from '../../../shared-types/errors.ts';
import { RefusedError } from '../errors.ts';
import { fieldWithin } from '../json/fieldText.ts';
import { atMost } from '../tolerance.ts';
import { isPlausibleMPa, plausibleMPa } from './plausible.ts';
import type { Strength } from './strength.ts';

const names = ['proofMPa', 'yieldMPa', 'ultimateMPa'] as const;

/**
 * Strengths typed as numbers: {"proofMPa"?, "yieldMPa"?, "ultimateMPa"?}.
 *
 *   proof ≤ yield ≤ ultimate
 *
 * @param input - at least one of the three [MPa], each a number of 0.1 to 100 000
 * @param field - the input's path, for refusals
 * @returns the strengths [MPa], null where not given, without a source
 * @throws RefusedError wrong-shape, missing-field, not-finite, out-of-range, contradiction (an impossible order); with `field`
 * @source typed by the user; the order is the definition of the three
 * @validity any fastener
 * @example explicitStrength({ yieldMPa: 640, ultimateMPa: 800 }, 'strength').proofMPa // null
 */
export function explicitStrength(input: object, field: string): Strength {
  const refuse = (code: RefusalCode, at: string, why: string, value: unknown): RefusedError =>
    new RefusedError({ code, message: `${at}: ${why}`, field: at, ...(value === undefined ? {} : { value }) });

  const given = input as Record<string, unknown>;
  const unknown = Object.keys(given).find((key) => !names.some((name) => name === key));
  if (unknown !== undefined) {
    const at = fieldWithin(field, unknown);
    throw refuse('wrong-shape', at, `is no field known here; known are ${names.join(', ')}`, plain(given[unknown]));
  }
  const read = (name: (typeof names)[number]): number | null => {
    const value = given[name];
    const at = fieldWithin(field, name);
    if (value === undefined) return null;
    if (typeof value !== 'number') throw refuse('wrong-shape', at, 'must be a number of MPa', plain(value));
    if (!Number.isFinite(value)) throw refuse('not-finite', at, `${value} MPa is no finite strength`, value);
    if (isPlausibleMPa(value)) return value;
    const why =
      value <= 0
        ? `must be more than 0 MPa; it is ${value}`
        : `no material has ${value} MPa: ${plausibleMPa.min} to ${plausibleMPa.max} MPa are taken`;
    throw refuse('out-of-range', at, why, value);
  };
  const strength = { proofMPa: read('proofMPa'), yieldMPa: read('yieldMPa'), ultimateMPa: read('ultimateMPa') };
  const known = names.flatMap((name) => (strength[name] === null ? [] : [{ name, mpa: strength[name] }]));
  if (known.length === 0) {
    throw refuse(
      'missing-field',
      field,
      `holds no strength: at least one of ${names.join(', ')} is asked for`,
      undefined,
    );
  }
  for (const [index, upper] of known.entries()) {
    const lower = known[index - 1];
    if (lower === undefined || atMost(lower.mpa, upper.mpa)) continue;
    throw refuse(
      'contradiction',
      fieldWithin(field, upper.name),
      `${lower.name} ${lower.mpa} is more than ${upper.name} ${upper.mpa}; proof, yield and ultimate strength rise in this order`,
      upper.mpa,
    );
  }
  return { name: 'as given', ...strength, sources: [] };
}

/** A value as a refusal carries it: objects are not repeated. */
function plain(value: unknown): unknown {
  return typeof value === 'object' ? undefined : value;
}
