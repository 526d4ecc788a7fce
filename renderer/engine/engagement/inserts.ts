import { citationOf } from '../handbook/rows.ts';
import { strengthTables } from '../handbook/strength.ts';
import { readThread, type Thread } from '../thread/index.ts';
import { atLeast, atMost } from '../tolerance.ts';
import { convertValue } from '../units/index.ts';
import type { Citation } from '../../../shared-types/handbook.ts';

/** Number 2 to 3/4 in, the sizes of the memorandum's tables of inserts and nuts. */
const insertRangeIn = { min: 0.086, max: 0.75 };

/**
 * Shear areas of a threaded insert: of the bolt's thread in it, and of its own internal thread.
 *
 *   external 5·π·L·D/8, internal 7·π·L·D/8
 *
 * @param x.thread - the bolt's thread, with D, its basic major diameter
 * @param x.engagementMm - L, length of engagement [mm], > 0
 * @returns both areas [mm²]; null for sizes outside the memorandum's tables
 * @throws nothing; judgeEngagement refuses what is outside the ranges
 * @source NASA TM-106943, equation 63 and Table III, which has 7/8 where the printed equation 76 says 3/4; text found
 * @validity the inserts of that memorandum, inch threads of number 2 to 3/4 in; areas of the outside of an insert are in tables that are not held
 * @example insertShearAreasMm2({ thread: readThread('1/2-20'), engagementMm: 15.494 }) // external 386.4, internal 540.9
 */
export function insertShearAreasMm2(x: {
  thread: Thread;
  engagementMm: number;
}): { external: number; internal: number } | null {
  const D = x.thread.majorMm;
  const isTabled = atLeast(D, insertRangeIn.min * 25.4) && atMost(D, insertRangeIn.max * 25.4);
  if (x.thread.system !== 'unified' || !isTabled) return null;
  const area = Math.PI * x.engagementMm * D;
  return { external: (5 / 8) * area, internal: (7 / 8) * area };
}

/**
 * Load at which a shear area gives way.
 *
 *   P = As·Fsu
 *
 * @param x.shearAreaMm2 - As [mm²], > 0
 * @param x.shearStrengthMPa - Fsu, ultimate shear strength [MPa], > 0
 * @returns P, pull-out load [N]
 * @throws nothing; judgeEngagement refuses what is outside the ranges
 * @source NASA TM-106943, Tables III to V; text found
 * @validity threads and inserts loaded along their axis
 * @example pullOutLoadN({ shearAreaMm2: 540.9, shearStrengthMPa: 586.05 }) // 316 995
 */
export function pullOutLoadN(x: { shearAreaMm2: number; shearStrengthMPa: number }): number {
  return x.shearAreaMm2 * x.shearStrengthMPa;
}

const nuts = strengthTables['nut-strength-nasa-tm-106943'];

/** Its rows with their threads, read once. */
const heldNuts = nuts.rows.map((row) => ({ row, held: readThread(row.thread) }));

/**
 * Axial strength of the self-locking nut that a table holds for a thread.
 *
 *   lookup; 1 lbf = 4.4482216152605 N
 *
 * @param x.thread - the bolt's thread; its size and pitch are matched exactly
 * @returns least axial strength [N] with its source; null where the table has no such thread
 * @throws nothing; judgeEngagement refuses what is outside the ranges
 * @source NASA TM-106943, Table VI, values of MIL-N-25027; nut-strength-nasa-tm-106943 in data/SOURCES.md; text found
 * @validity the nuts of that memorandum; a nut is to be stronger than the tensile load of its bolt
 * @example lockNutStrengthN({ thread: readThread('1/4-28') }) // 20 373 (4580 lbf)
 */
export function lockNutStrengthN(x: { thread: Thread }): { axialN: number; source: Citation } | null {
  const row = heldNuts.find(
    ({ held }) => held.size === x.thread.size && held.threadsPerInch === x.thread.threadsPerInch,
  )?.row;
  if (row === undefined) return null;
  return { axialN: convertValue(row.nut_min_axial_strength_lbf, 'lbf', 'N'), source: citationOf(nuts) };
}
