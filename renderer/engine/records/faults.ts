import type { Refusal } from '../../../shared-types/errors.ts';
import { RefusedError } from '../errors.ts';
import { Reading } from '../plan/reading.ts';
import { Refusals } from '../json/refusals.ts';

/** What must never be kept: where it stands in the record, and why, in words for the person who typed it. */
export interface Fault {
  /** As refusals write it: `opening.size`, `settings[2]`; empty for the record as a whole. */
  path: string;
  message: string;
}

/** The field's name in front is dropped: a form shows the words beside the field itself. */
export function plainWords(refusal: Refusal): string {
  const { message, field = '' } = refusal;
  const name = `${field}: `;
  return message.startsWith(name) ? message.slice(name.length) : message;
}

/** Everything that was refused, where one refusal carries the others. */
export function allOf(refusal: Refusal): Refusal[] {
  return refusal.rows ?? [refusal];
}

/**
 * What the planner's own reading refuses in one record, so that a form accepts exactly what the planner can read.
 *
 * @param read - reads the record's fields under their paths; a leading dot is no part of a path
 * @returns at most one fault for each path; a limit is not compared with one that could not be read
 */
export function faultsOfReading(read: (r: Reading) => void): Fault[] {
  const refusals = new Refusals(undefined, () => undefined);
  read(new Reading(refusals));
  const found = refused(() => refusals.settle());
  const faults = new Map<string, { refusal: Refusal; path: string }>();
  for (const refusal of found) {
    const path = (refusal.field ?? '').replace(/^\./, '');
    if (!faults.has(path)) faults.set(path, { refusal, path });
  }
  return [...faults.values()].map(({ refusal, path }) => ({ path, message: inWords(refusal, path) }));
}

function refused(settle: () => void): Refusal[] {
  try {
    settle();
    return [];
  } catch (error) {
    if (error instanceof RefusedError) return allOf(error.refusal);
    throw error;
  }
}

/** The refusal with the entry quoted and two right spellings, where it does not say them already. */
function inWords(refusal: Refusal, path: string): string {
  const { value } = refusal;
  const words = plainWords(refusal);
  const quoted = typeof value === 'string' && !words.includes(`"${value}"`) ? `"${value}" ` : '';
  const said = `${quoted}${words}`;
  return /\bas "|\bwrite "/i.test(said) || refusal.code === 'contradiction' ? said : withSpellings(said, path);
}

/** Two right spellings of what a field takes, by the field's name; null where it takes no quantity. */
export function spellingsOf(path: string): readonly [string, string] | null {
  const name = path.replace(/\[\d+\]$/, '');
  if (/(?:^|\.)acrossFlatsLimits\./.test(name)) return spellings.length;
  const last = name.slice(name.lastIndexOf('.') + 1);
  const found = Object.entries(fieldsOf).find(([, fields]) => fields.includes(last));
  if (name === 'opening.size' || name === 'head.acrossFlats') return spellings.head;
  return found === undefined ? null : spellings[found[0] as keyof typeof fieldsOf];
}

/** The words with two right spellings after them, where the field takes a quantity. */
export function withSpellings(words: string, path: string): string {
  const two = spellingsOf(path);
  return two === null || words.includes(two[0])
    ? words
    : `${words.replace(/\.$/, '')}: write it as "${two[0]}" or "${two[1]}".`;
}

const spellings = {
  torque: ['60 N·m', '45 lbf·ft'],
  length: ['12 mm', '7/16 in'],
  mass: ['350 g', '12 oz'],
  volume: ['0.5 L', '30 in3'],
  drive: ['3/8 in', '10 mm'],
  head: ['13 mm', '1/2 in'],
} as const;

const fieldsOf: Readonly<Record<Exclude<keyof typeof spellings, 'head'>, readonly string[]>> = {
  torque: ['min', 'max', 'increment', 'settings', 'ratedTorque', 'demand'],
  length: [
    'length',
    'innerDepth',
    'outsideDiameter',
    'lever',
    'size',
    'sizeMax',
    'depth',
    'clearDiameter',
    'handleRadius',
    'protrusion',
    'threadRun',
    'offset',
  ],
  mass: ['mass', 'massMax', 'ratedMass'],
  volume: ['volume', 'volumeMax'],
  drive: ['drive', 'driveIn', 'driveOut'],
};
