import type { JointNumbers } from '../../../shared-types/joint.ts';
import { computeJoint } from '../preload/index.ts';
import { atMost } from '../tolerance.ts';
import type { Callout } from './callout.ts';
import { isEmpty, type CalloutTorque } from './torqueOfCallout.ts';

/**
 * The preload a callout gives, and its stresses, by its own nut factor or friction.
 *
 *   as computeJoint with the seating torque, the callout's scatter, no settling and no change of temperature
 *
 * @returns null where the callout has neither nut factor nor friction, or nothing of its torque seats the joint
 */
export function jointOfCallout(callout: Callout, { seating }: CalloutTorque): JointNumbers | null {
  const { tightening, strength, scatter } = callout;
  if (tightening === null || isEmpty(callout.band) || atMost(seating.maxNm, 0)) return null;
  return computeJoint({
    screw: callout.thread.screw,
    tightening,
    target: { to: 'torque', torque: seating, torqueIs: 'seating' },
    running: { minNm: 0, maxNm: 0 },
    scatter: scatter ?? 0,
    scatterOf: 'band',
    boltsSharing: 1,
    relaxation: { share: 0, form: 'divide' },
    thermalGainN: 0,
    thermalLossN: 0,
    torsion: 'elastic',
    proofMPa: strength?.proofMPa ?? null,
    yieldMPa: strength?.yieldMPa ?? null,
  });
}
