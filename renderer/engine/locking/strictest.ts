import { convertValue } from '../units/index.ts';
import type { LimitName, PrintedLimit } from './heldLimits.ts';

/** Null where the document prints no such limit for the size. */
export interface LimitsNm {
  runningMaxNm: number | null;
  breakawayMinNm: number | null;
  reusedMinNm: number | null;
}

/**
 * The limits that satisfy every kind of nut printed for a size.
 *
 *   running: least of the maxima; breakaway and reused: greatest of the minima
 *
 * @param printed - limits of one size, of one kind of nut or of several
 * @returns greatest running, least breakaway, least reused torque [N·m]; null where none is printed
 * @throws nothing a table held could cause
 * @source the headless contract: a table with variants gives the stricter
 * @validity one document and one size
 * @example all-metal 12 and nylon 9 lbf·in, both least: reusedMinNm 1.3558, 12 lbf·in
 */
export function strictest(printed: readonly PrintedLimit[]): LimitsNm {
  const values = (name: LimitName): number[] =>
    printed.filter((limit) => limit.limit === name).map((limit) => convertValue(limit.value, limit.unit, 'N·m'));
  const [running, breakaway, reused] = [values('runningMax'), values('breakawayMin'), values('reusedMin')];
  return {
    runningMaxNm: running.length === 0 ? null : Math.min(...running),
    breakawayMinNm: breakaway.length === 0 ? null : Math.max(...breakaway),
    reusedMinNm: reused.length === 0 ? null : Math.max(...reused),
  };
}
