import { RefusedError } from '../../errors.ts';
import { limitTolerance } from '../../tolerance.ts';

export interface TorqueBand {
  minNm: number;
  maxNm: number;
}

/**
 * The part of a wrench torque that stretches the bolt, over the band of both.
 *
 *   wrench = seating + running;  seating = [min − running max, max − running min]
 *
 * @param x.wrench - torque on the wrench [N·m], 0 < min ≤ max
 * @param x.running - running torque [N·m], 0 ≤ min ≤ max
 * @returns seating torque [N·m], min > 0
 * @throws RefusedError contradiction where the running torque leaves nothing of the wrench's least torque
 * @source definition; NASA TM-106943 and FAA AC 43.13-1B add running torque to the seating torque (read)
 * @validity locking fasteners; running torque while the fastener turns freely, the same when it seats
 * @example seatingOfWrench({ wrench: { minNm: 20, maxNm: 24 }, running: { minNm: 1, maxNm: 3 } }) // { minNm: 17, maxNm: 23 }
 */
export function seatingOfWrench({ wrench, running }: { wrench: TorqueBand; running: TorqueBand }): TorqueBand {
  const minNm = wrench.minNm - running.maxNm;
  // What is left of two equal torques in two units is rounding, not torque.
  if (minNm <= limitTolerance * wrench.minNm) {
    throw new RefusedError({
      code: 'contradiction',
      message: `running.max: a running torque of up to ${running.maxNm} N·m leaves ${minNm} N·m for seating of the least torque on the wrench, ${wrench.minNm} N·m; the seating minimum must be above 0`,
      field: 'running.max',
    });
  }
  return { minNm, maxNm: wrench.maxNm - running.minNm };
}

/**
 * Torque on the wrench for a seating torque.
 *
 *   installation = [seating min + running min, seating max + running max]
 *
 * @param x.seating - seating torque [N·m]
 * @param x.running - running torque [N·m], 0 ≤ min ≤ max
 * @returns torque on the wrench [N·m]
 * @throws nothing
 * @source as seatingOfWrench
 * @validity as seatingOfWrench
 * @example installationOf({ seating: { minNm: 17, maxNm: 20 }, running: { minNm: 1, maxNm: 3 } }) // { minNm: 18, maxNm: 23 }
 */
export function installationOf({ seating, running }: { seating: TorqueBand; running: TorqueBand }): TorqueBand {
  return { minNm: seating.minNm + running.minNm, maxNm: seating.maxNm + running.maxNm };
}
