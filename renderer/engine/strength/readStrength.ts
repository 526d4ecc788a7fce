import { RefusedError } from '../errors.ts';
import { explicitStrength } from './explicit.ts';
import { heldGrades, type Grade } from './grades.ts';
import { holdsSize } from './sizeRange.ts';
import { squeezedName } from './spelling.ts';
import type { SizedThread, Strength } from './strength.ts';

const longestText = 80;

/**
 * The least strengths of a fastener: by the name of its class, grade or material, or as typed.
 *
 *   lookup; ksi of inch grades by 1 ksi = 6.894757293168361 MPa
 *
 * @param input - "8.8", "ISO 898-1 class 8.8", "SAE J429 grade 5", "A2-70", "ASTM A449", "Table 8-11 class 4.6", "A-286" …; spaces
 *   and case do not count. Or {"proofMPa"?, "yieldMPa"?, "ultimateMPa"?} [MPa], each > 0, proof ≤ yield ≤ ultimate
 * @param x.thread - the thread it is on; null for a screw without designation, which no graded size can be found for
 * @param x.field - the input's path, for refusals
 * @returns proof, yield and ultimate [MPa], null where the source prints none, and the sources
 * @throws RefusedError not-held (no such name, naming what is held), out-of-range (a size outside the grade's range, or a metric class
 *   on an inch thread and the other way round), contradiction (an impossible order), wrong-shape, missing-field, not-finite
 * @source ISO 898-1:1999 (tensile, yield) and :2013 (stress under proof load, memory), SAE J429, ASTM specifications, ISO 3506-1,
 *   NASA TM-106943, a textbook's Table 8-11; keys in data/SOURCES.md
 * @validity the sizes each table prints; ISO 898-1 and ISO 3506-1 M1.6 to M39 (memory). Class 8.8 changes above d = 16 mm: M16
 *   itself is of the lower row, though the textbook's copy begins its upper one there
 * @example readStrength('8.8', { thread: readThread('M20'), field: 'strength' }).ultimateMPa // 830
 */
export function readStrength(input: unknown, x: { thread: SizedThread | null; field: string }): Strength {
  if (typeof input === 'object' && input !== null && !Array.isArray(input)) return explicitStrength(input, x.field);
  if (typeof input !== 'string') throw notText(input, x.field);
  const asked = squeezedName(input);
  const rows = heldGrades.filter((grade) => grade.spellings.has(asked));
  const [first] = rows;
  if (first === undefined) throw notHeld(input, x.field);
  const row = rows.find((grade) => grade.range === null || isOn(grade, x.thread));
  if (row === undefined) throw outside(input, first, rows, x);
  const { name, proofMPa, yieldMPa, ultimateMPa } = row;
  return { name, proofMPa, yieldMPa, ultimateMPa, sources: row.sources.map((source) => ({ ...source })) };
}

function isOn({ range }: Grade, thread: SizedThread | null): boolean {
  return range !== null && thread !== null && range.system === thread.system && holdsSize(range, thread.majorMm);
}

function notText(input: unknown, field: string): RefusedError {
  const words =
    typeof input === 'number'
      ? `is a bare number: a property class is written as a text, as "${input}"; strengths as {"ultimateMPa": ${input}}`
      : 'must be the name of a class or grade, as "8.8" or "SAE J429 grade 5", or an object of proofMPa, yieldMPa and ultimateMPa';
  const shown = typeof input === 'number' || typeof input === 'boolean' ? { value: input } : {};
  return new RefusedError({ code: 'wrong-shape', message: `${field}: ${words}`, field, ...shown });
}

function notHeld(input: string, field: string): RefusedError {
  const shown = input.length > longestText ? `${input.slice(0, longestText)}…` : input;
  const families = [...new Set(heldGrades.map((grade) => grade.family))].map((family) => {
    const names = heldGrades.filter((grade) => grade.family === family).map((grade) => grade.grade);
    return `${family} ${[...new Set(names)].join(', ')}`;
  });
  return new RefusedError({
    code: 'not-held',
    message: `${field}: no strength of "${shown}" is held. Held are: ${families.join('; ')}.`,
    field,
    value: shown,
  });
}

function outside(
  input: string,
  first: Grade,
  rows: readonly Grade[],
  x: { thread: SizedThread | null; field: string },
): RefusedError {
  const ranges = rows.map((row) => row.range?.text ?? '').join(', and ');
  const threads = first.range?.system === 'metric' ? 'metric threads' : 'inch threads';
  const of = first.sources.map((source) => `${source.number} (${source.edition})`).join(' and ');
  const why =
    x.thread === null
      ? 'the screw has no thread designation, so it cannot be told whether it is of that range: give the strengths in MPa'
      : x.thread.system === first.range?.system
        ? `${x.thread.designation} is outside`
        : `${x.thread.designation} is ${x.thread.system === 'metric' ? 'a metric thread' : 'an inch thread'}`;
  return new RefusedError({
    code: 'out-of-range',
    message: `${x.field}: ${first.name} holds for ${threads}, ${ranges}, by ${of}; ${why}.`,
    field: x.field,
    value: input,
  });
}
