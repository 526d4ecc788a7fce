import type { JointNumbers, Share, Spread } from '../../../shared-types/joint.ts';
import { isSelfLocking, releaseTorqueNm } from '../loosening/releaseTorque.ts';
import { askedPreloadN } from './askedPreload.ts';
import {
  effectiveNutFactor,
  equivalentMPa,
  greatestPreloadN,
  installationOf,
  leastPreloadN,
  scatterOfSeveral,
  screwEfficiency,
  seatingOfWrench,
  stressDiameterMm,
  tensionMPa,
  type TorqueBand,
  torsionMPa,
} from './formula/index.ts';
import type { ResolvedJoint } from './resolvedJoint.ts';
import { rubbing, torqueArms, type TorqueArms } from './torqueArms.ts';

/**
 * Torque, preload and stress of one joint: every formula of tightening and loosening joined, in plain numbers.
 *
 *   seating ⇄ preload by K·D or by the screw's arm; range by scatter, temperature and settling; stress at nominal preload
 *
 * @param joint - thread, friction or nut factor, what it is tightened to, and what spreads the preload; all within the ranges of
 *   the formulas
 * @returns preload [N], torque [N·m], stress [MPa] and shares of strength; null where the joint does not say enough
 * @throws RefusedError contradiction (running torque leaves no seating torque), out-of-range (a formula's own limit), missing-field (a
 *   share of strength without strength or area)
 * @source as each formula: renderer/engine/preload/formula, renderer/engine/loosening
 * @validity below yield; a share above 1 says that it is not
 * @example M10, K 0.2, seating 40 N·m: preloadN.nominal 20000
 */
export function computeJoint(joint: ResolvedJoint): JointNumbers {
  const arms = torqueArms(joint);
  const { seating, before } = seat(joint, arms);
  const preloadN = afterLosses(joint, before);
  const installation = onTheWrench(joint, seating);
  const { screw, tightening, yieldMPa, proofMPa } = joint;
  const diameterMm = tightening.by === 'nutFactor' ? tightening.diameterMm : screw.nominalDiameterMm;
  const loosened = loosening(joint, preloadN.nominal);
  const stress = stressOf(joint, preloadN.nominal, arms);
  return {
    preloadN,
    torqueNm: { seating, installation: { min: installation.minNm, max: installation.maxNm } },
    releaseTorqueNm: loosened.releaseTorqueNm,
    selfLocking: loosened.selfLocking,
    efficiency: screwEfficiency({ preloadN: before.nominal, leadMm: screw.leadMm, torqueNm: seating.nominal }),
    nutFactorEffective:
      diameterMm === null
        ? null
        : effectiveNutFactor({ torqueNm: seating.nominal, diameterMm, preloadN: before.nominal }),
    stressMPa: stress,
    torsion: joint.torsion,
    proofShare: share(stress?.tension ?? null, proofMPa, preloadN),
    yieldShare: share(stress?.equivalent ?? null, yieldMPa, preloadN),
  };
}

/** Seating torque [N·m], and the preload it gives before scatter and losses [N]. */
function seat(joint: ResolvedJoint, { seatingMm }: TorqueArms): { seating: Spread; before: Spread } {
  const { target } = joint;
  if (target.to === 'torque') {
    const { minNm, maxNm } =
      target.torqueIs === 'wrench' ? seatingOfWrench({ wrench: target.torque, running: joint.running }) : target.torque;
    const seating = { nominal: (minNm + maxNm) / 2, min: minNm, max: maxNm };
    const nominal = (1000 * seating.nominal) / seatingMm.nominal;
    if (joint.scatterOf === 'nominal') return { seating, before: { nominal, min: nominal, max: nominal } };
    return {
      seating,
      before: { nominal, min: (1000 * minNm) / seatingMm.max, max: (1000 * maxNm) / seatingMm.min },
    };
  }
  const preloadN = askedPreloadN(joint, target);
  return {
    seating: {
      nominal: (preloadN * seatingMm.nominal) / 1000,
      min: (preloadN * seatingMm.min) / 1000,
      max: (preloadN * seatingMm.max) / 1000,
    },
    before: { nominal: preloadN, min: preloadN, max: preloadN },
  };
}

function afterLosses(joint: ResolvedJoint, before: Spread): Spread {
  const { scatter, relaxation } = joint;
  return {
    nominal: before.nominal,
    min: leastPreloadN({
      preloadN: before.min,
      scatter: scatterOfSeveral({ scatter, bolts: joint.boltsSharing }),
      lossN: joint.thermalLossN,
      relaxation: relaxation.share,
      form: relaxation.form,
    }),
    max: greatestPreloadN({ preloadN: before.max, scatter, gainN: joint.thermalGainN }),
  };
}

function onTheWrench({ target, running }: ResolvedJoint, seating: Spread): TorqueBand {
  // A torque on the wrench is the installation torque; taking running torque out and adding it again would widen it.
  if (target.to === 'torque' && target.torqueIs === 'wrench') return target.torque;
  return installationOf({ seating: { minNm: seating.min, maxNm: seating.max }, running });
}

function loosening({ screw, tightening }: ResolvedJoint, preloadN: number) {
  if (tightening.by === 'nutFactor') return { releaseTorqueNm: null, selfLocking: null };
  const thread = rubbing(screw, tightening.thread);
  const bearing = { friction: tightening.bearing, bearingDiameterMm: tightening.bearingDiameterMm };
  return {
    releaseTorqueNm: releaseTorqueNm({ preloadN, screw: thread, bearing, runningNm: 0 }),
    selfLocking: isSelfLocking(thread),
  };
}

function stressOf({ screw, torsion }: ResolvedJoint, preloadN: number, arms: TorqueArms): JointNumbers['stressMPa'] {
  const { stressAreaMm2 } = screw;
  if (stressAreaMm2 === null) return null;
  const tension = tensionMPa({ preloadN, stressAreaMm2 });
  if (arms.shankMm === null) return { tension, shear: null, equivalent: null };
  const threadTorqueNm = (preloadN * arms.shankMm) / 1000;
  const shear = torsionMPa({ threadTorqueNm, stressDiameterMm: stressDiameterMm({ stressAreaMm2 }), torsion });
  return { tension, shear, equivalent: equivalentMPa({ tensionMPa: tension, shearMPa: shear }) };
}

/** Tension and torsion are both proportional to the preload, and so is the share. */
function share(stressMPa: number | null, strengthMPa: number | null, preloadN: Spread): Share | null {
  if (stressMPa === null || strengthMPa === null) return null;
  const nominal = stressMPa / strengthMPa;
  return { nominal, max: (nominal * preloadN.max) / preloadN.nominal };
}
