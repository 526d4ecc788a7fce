import { RefusedError } from '../errors.ts';
import { stressSharePreloadN, yieldSharePreloadN } from './formula/index.ts';
import type { ResolvedJoint, ResolvedScrew, Target } from './resolvedJoint.ts';

/**
 * The preload a joint is to have, where it is asked for as such or as a share of yield.
 *
 *   F as given; F = A0·ν·Rp/√(1 + 3·(τ/σ)²) with torsion, F = ν·Rp·As without
 *
 * @param joint - thread, friction, strength and torsion of the joint
 * @param target - what is asked for: a preload [N], or a share above 0 and at most 1
 * @returns F, nominal preload [N]
 * @throws RefusedError missing-field where a share has no yield strength, area or friction to count on; out-of-range
 * @source as yieldSharePreloadN and stressSharePreloadN
 * @validity as yieldSharePreloadN and stressSharePreloadN
 * @example stress share 0.5 of 640 MPa on 58 mm²: 18560
 */
export function askedPreloadN(joint: ResolvedJoint, target: Exclude<Target, { to: 'torque' }>): number {
  if (target.to === 'preload') return target.preloadN;
  const { screw, tightening, yieldMPa, torsion } = joint;
  const strength = {
    share: target.share,
    yieldMPa: yieldFor(target.to, yieldMPa),
    stressAreaMm2: areaFor(target.to, screw),
  };
  if (target.to === 'stressShare') return stressSharePreloadN(strength);
  if (tightening.by !== 'friction') {
    throw missing('friction', 'yieldShare: torsion needs the friction in the thread, and none is given');
  }
  return yieldSharePreloadN({
    ...strength,
    pitchDiameterMm: screw.meanDiameterMm,
    pitchMm: screw.leadMm,
    friction: tightening.thread,
    torsion,
  });
}

/** The area a share of strength is counted on. */
function areaFor(field: string, screw: ResolvedScrew): number {
  if (screw.stressAreaMm2 !== null) return screw.stressAreaMm2;
  throw missing('thread.rootDiameterMm', `${field}: a share of strength needs an area, and this screw has none`);
}

/** The yield strength a share is counted of. */
function yieldFor(field: string, yieldMPa: number | null): number {
  if (yieldMPa !== null) return yieldMPa;
  throw missing(
    'strength',
    `${field}: a share of yield needs the fastener's yield strength, and "strength" holds none`,
  );
}

function missing(field: string, message: string): RefusedError {
  return new RefusedError({ code: 'missing-field', message, field });
}
