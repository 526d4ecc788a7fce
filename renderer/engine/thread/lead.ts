import { readThread } from './readThread.ts';

/**
 * Axial travel in one turn.
 *
 *   lead = P × starts
 *
 * @param x.pitchMm - P [mm], > 0
 * @param x.starts - number of starts, 1 for fasteners
 * @returns lead [mm]
 * @throws nothing; its callers bound what they give
 * @source definition
 * @validity any screw
 * @example leadOfStarts({ pitchMm: 1.5, starts: 2 }) // 3
 */
export function leadOfStarts({ pitchMm, starts }: { pitchMm: number; starts: number }): number {
  return pitchMm * starts;
}

/**
 * The lead of a designated fastener thread, which has one start.
 *
 *   lead = P
 *
 * @returns lead [mm]
 * @throws RefusedError as readThread does
 * @source definition
 * @validity single-start threads
 * @example leadMm('1/4-28') // 0.9071
 */
export function leadMm(designation: string): number {
  return leadOfStarts({ pitchMm: readThread(designation).pitchMm, starts: 1 });
}

/**
 * Turns to run a length of thread.
 *
 *   turns = length / lead
 *
 * @param x.lengthMm - axial travel [mm], ≥ 0
 * @param x.leadMm - lead [mm], > 0
 * @returns turns [rev]
 * @throws nothing; its callers bound what they give
 * @source definition
 * @validity any screw
 * @example turnsToRun({ lengthMm: 12, leadMm: 1.5 }) // 8
 */
export function turnsToRun(x: { lengthMm: number; leadMm: number }): number {
  return x.lengthMm / x.leadMm;
}
