import { RefusedError } from '../errors.ts';
import { Cursor } from './cursor.ts';
import { readMetric } from './metric.ts';
import type { Thread } from './thread.ts';
import { readUnified } from './unified.ts';

const longestText = 80;

/**
 * A thread designation with the basic sizes that follow from it.
 *
 * @param designation - "M10", "M10x1.25-6g", "1/4-28 UNF-3A", ".2500-28 UNJF-3A", "#10-32", "1-1/8-12 UNF", "5/8-11 UNC-2B LH" …;
 *   "1-8" is one inch and "1-64" number 1; decimals mean a held size within 0.0005 in
 * @returns the thread: its designation in one form, its basic sizes [mm, mm²], class and hand
 * @throws RefusedError unreadable-thread with the position, not-held (no pitch given and none held), contradiction (a stated series
 *   that the pitch does not have), out-of-range (no such thread can be)
 * @source pitches: ISO 262; series: ASME B1.1 (tables in data/handbook)
 * @validity single-start M, UN, UNR and UNJ threads
 * @example readThread('1/4-28 UNF-3A').stressAreaMm2 // 23.46
 */
export function readThread(designation: string): Thread {
  if (typeof designation !== 'string' || designation.length > longestText) {
    throw new RefusedError({
      code: 'unreadable-thread',
      message: `A thread designation is a text of at most ${longestText} characters.`,
      value: typeof designation === 'string' ? `${String(designation).slice(0, 40)}…` : designation,
      position: 0,
    });
  }
  const at = new Cursor(designation);
  at.take(/\s+/);
  if (at.rest === '') throw at.refuse('is empty: write it as "M10x1.25" or "1/4-28".');
  if (at.take(/MJ/i) !== undefined)
    throw at.refuse('is an MJ thread: no dimensions of MJ threads are held.', 'not-held', 0);
  return at.take(/M/i) === undefined ? readUnified(at) : readMetric(at);
}
