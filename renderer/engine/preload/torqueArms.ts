import type { Spread } from '../../../shared-types/joint.ts';
import {
  assemblyArmMm,
  bearingArmMm,
  linearThreadArmMm,
  nutFactorTorqueNm,
  screwThreadArmMm,
  type ScrewThread,
} from './formula/index.ts';
import type { ResolvedJoint, ResolvedScrew } from './resolvedJoint.ts';

/** Torque over preload [mm]: seating as a whole, and the part that twists the shank (null where only the whole is known). */
export interface TorqueArms {
  seatingMm: Spread;
  shankMm: number | null;
}

/** Seating torque and preload are proportional in every form: one factor and its range carry both directions. */
export function torqueArms({ screw, tightening, target }: ResolvedJoint): TorqueArms {
  if (tightening.by === 'nutFactor') {
    const { nominal, min, max, diameterMm } = tightening;
    const nominalMm = armOfNutFactorMm(nominal, diameterMm);
    if (min === nominal && max === nominal) return { seatingMm: alike(nominalMm), shankMm: null };
    return {
      seatingMm: {
        nominal: nominalMm,
        min: armOfNutFactorMm(min, diameterMm),
        max: armOfNutFactorMm(max, diameterMm),
      },
      shankMm: null,
    };
  }
  const { form, thread: friction, bearing, bearingDiameterMm } = tightening;
  const bearingMm = bearingArmMm({ friction: bearing, bearingDiameterMm });
  if (form === 'screw') {
    const threadMm = screwThreadArmMm(rubbing(screw, friction));
    return { seatingMm: alike(threadMm + bearingMm), shankMm: threadMm };
  }
  const linear = { pitchMm: screw.leadMm, pitchDiameterMm: screw.meanDiameterMm, friction };
  const threadMm = linearThreadArmMm(linear);
  // A share of yield is given back to its last digit only by the arm it was turned into a preload with.
  const shankMm = target.to === 'yieldShare' ? assemblyArmMm(linear) : threadMm;
  return { seatingMm: alike(threadMm + bearingMm), shankMm };
}

/** A screw with its friction, field by field: joints are computed by the hundred thousand, and a spread costs as much as a formula. */
export function rubbing(screw: ResolvedScrew, friction: number): ScrewThread & { friction: number } {
  const { meanDiameterMm, leadMm, halfAngleDeg } = screw;
  return { meanDiameterMm, leadMm, halfAngleDeg, friction };
}

/** The torque in N·mm for 1 N is the arm in mm. */
function armOfNutFactorMm(nutFactor: number, diameterMm: number): number {
  return nutFactorTorqueNm({ nutFactor, diameterMm, preloadN: 1000 });
}

function alike(value: number): Spread {
  return { nominal: value, min: value, max: value };
}
