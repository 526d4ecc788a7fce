import type { Finding } from '../../../shared-types/judged.ts';
import { atMost } from '../tolerance.ts';
import { showNumber } from '../units/index.ts';
import type { AsRunRecord } from './record.ts';

/** Positions of which a pattern is made. */
const positionsLeast = 4;
/** Turns that are no difference, however alike the others are. */
const turnsLeast = 0.25;
/** Makes of the median absolute deviation a standard deviation, where values are normally distributed. */
const normalFactor = 1.4826;
const source =
  'Rule of this program: |t − median| > max(0.25 turn, 3·1.4826·MAD), MAD the median absolute deviation (textbook, from memory; the 0.25 turn is common practice, no source).';

/** How many turns the positions took that were tightened together. */
export interface TurnsPattern {
  median: number;
  allowed: number;
}

/**
 * How many turns the fasteners of a pattern took, and how far one may be off.
 *
 *   allowed = max(0.25, 3·1.4826·MAD),  MAD = median |t − median|
 *
 * @param turns - of each position [turns], ≥ 0
 * @returns null for fewer than 4
 * @throws nothing
 * @source contract, rule turns-off-pattern
 * @validity positions with the same thread, grip and way of tightening
 * @example turnsPatternOf([3, 3, 3.1, 5]) // median 3.05, allowed 0.25
 */
export function turnsPatternOf(turns: readonly number[]): TurnsPattern | null {
  if (turns.length < positionsLeast) return null;
  const median = medianOf(turns);
  const deviation = medianOf(turns.map((one) => Math.abs(one - median)));
  return { median, allowed: Math.max(turnsLeast, 3 * normalFactor * deviation) };
}

function medianOf(values: readonly number[]): number {
  const sorted = values.toSorted((a, b) => a - b);
  const half = sorted.length / 2;
  const above = sorted[Math.floor(half)] ?? 0;
  return Number.isInteger(half) ? ((sorted[half - 1] ?? 0) + above) / 2 : above;
}

/** `turns-off-pattern`: a position that took other turns than those tightened with it. */
export function turnsFindings({ turns, position }: AsRunRecord, pattern: TurnsPattern | null): Finding[] {
  if (turns === null || pattern === null) return [];
  const { median, allowed } = pattern;
  const off = Math.abs(turns - median);
  if (atMost(off, allowed)) return [];
  return [
    {
      rule: 'turns-off-pattern',
      severity: 'query',
      message: `Position ${position} took ${showNumber(turns)} turns, ${showNumber(off)} ${turns > median ? 'more' : 'fewer'} than the ${showNumber(median)} of its pattern; ${showNumber(allowed)} is let pass. Thread, seat or grip may differ there.`,
      value: off,
      limit: allowed,
      unit: 'turns',
      source,
    },
  ];
}
