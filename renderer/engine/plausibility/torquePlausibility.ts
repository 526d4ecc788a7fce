import { RefusedError } from '../errors.ts';
import { atLeast, atMost } from '../tolerance.ts';
import { convertValue, readQuantity, type Unit } from '../units/index.ts';
import { publishedSpan, type PublishedSpan } from './publishedSpan.ts';

export interface TorquePlausibility {
  /** "not-held": nothing is published for the thread, and nothing can be said. */
  verdict: 'within' | 'outside' | 'not-held';
  typedNm: { min: number; max: number };
  span: PublishedSpan | null;
  /** Units in which the same figures would lie within the span, the likeliest slip first; filled for "outside" alone. */
  meant: Unit[];
}

/** Torque units that people write for one another, the commonest first (common practice, no source). */
const takenForOneAnother = [
  'lbf·in',
  'lbf·ft',
  'N·m',
  'cN·m',
  'ozf·in',
  'kgf·cm',
  'kgf·m',
] as const satisfies readonly Unit[];

/**
 * Whether a torque looks as if its unit were mixed up: it lies outside everything published for its thread.
 *
 *   within: least published ≤ min and max ≤ greatest published; meant: units u in which the same figures lie within
 *
 * @param x.thread - designation
 * @param x.torque - both ends as typed, with units
 * @returns the verdict with the published span and its sources, and the units likely meant
 * @throws RefusedError as readThread and readQuantity do; out-of-range for a torque below 0; contradiction where min > max
 * @source torque-* tables in data/SOURCES.md; nothing invented: where no table has the thread, the verdict is "not-held"
 * @validity a query, never a limit: a special joint may be right outside the span, and a slip between N·m and lbf·ft, which is one of
 *   a third, often stays within it
 * @example torquePlausibility({ thread: '1/4-28', torque: { min: '50 lbf·ft', max: '70 lbf·ft' } }).meant // ['lbf·in', …]
 */
export function torquePlausibility(x: { thread: string; torque: { min: string; max: string } }): TorquePlausibility {
  const min = readQuantity(x.torque.min, 'torque');
  const max = readQuantity(x.torque.max, 'torque');
  const typedNm = { min: convertValue(min.value, min.unit, 'N·m'), max: convertValue(max.value, max.unit, 'N·m') };
  if (typedNm.min < 0) {
    throw new RefusedError({ code: 'out-of-range', message: `"${min.typed}" is below 0.`, value: min.typed });
  }
  if (!atMost(typedNm.min, typedNm.max)) {
    const message = `The minimum ${min.typed} is above the maximum ${max.typed}.`;
    throw new RefusedError({ code: 'contradiction', message, value: min.typed });
  }
  const span = publishedSpan(x.thread);
  if (span === null) return { verdict: 'not-held', typedNm, span, meant: [] };
  if (isWithin(typedNm, span)) return { verdict: 'within', typedNm, span, meant: [] };
  const meant = takenForOneAnother.filter((unit) =>
    isWithin({ min: convertValue(min.value, unit, 'N·m'), max: convertValue(max.value, unit, 'N·m') }, span),
  );
  return { verdict: 'outside', typedNm, span, meant };
}

function isWithin({ min, max }: { min: number; max: number }, { least, greatest }: PublishedSpan): boolean {
  return atLeast(min, least.nm) && atMost(max, greatest.nm);
}
