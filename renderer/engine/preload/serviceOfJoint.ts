import type { JointInput, ServiceNumbers, ServiceOfCone } from '../../../shared-types/joint.ts';
import {
  boltStiffnessNPerMm,
  elongationMm,
  jointConstant,
  jointStiffnessNPerMm,
  serviceStressMPa,
  thermalLoadN,
} from './formula/index.ts';
import type { JointReading } from './read/readingJoint.ts';
import type { ResolvedScrew } from './resolvedJoint.ts';

/** What is clamped, in N, mm and MPa. */
export interface ResolvedService {
  gripMm: number;
  boltModulusMPa: number;
  jointModulusMPa: number;
  loadN: number | null;
  thermalStrain: number | null;
  areaMm2: number;
  diameterMm: number;
}

/** Stiffness counts on the section As over the whole grip and on the nominal diameter: a designation says both. */
export function readService(
  r: JointReading,
  service: NonNullable<JointInput['service']>,
  screw: ResolvedScrew,
): ResolvedService | null {
  const stress = { kind: 'stress', unit: 'MPa', aboveZero: true } as const;
  const gripMm = r.amount('service.grip', service.grip, { kind: 'length', unit: 'mm', aboveZero: true });
  const boltModulusMPa = r.amount('service.boltModulus', service.boltModulus, stress);
  const jointModulusMPa = r.amount('service.jointModulus', service.jointModulus, stress);
  const { load, thermalStrain = null } = service;
  const loadN =
    load === undefined ? null : r.amount('service.load', load, { kind: 'force', unit: 'N', aboveZero: false });
  const { stressAreaMm2: areaMm2, nominalDiameterMm: diameterMm } = screw;
  if (areaMm2 === null || diameterMm === null) {
    r.refuse(
      'service',
      'contradiction',
      'needs the section and the diameter of a designated thread, and "thread" names none',
    );
    return null;
  }
  return { gripMm, boltModulusMPa, jointModulusMPa, loadN, thermalStrain, areaMm2, diameterMm };
}

/** Stiffness, elongation, load in service and thermal load, for both cones in use; nothing chooses between them. */
export function serviceOfJoint(service: ResolvedService, preloadN: number): ServiceNumbers {
  const { gripMm, areaMm2, diameterMm, boltModulusMPa, jointModulusMPa, loadN, thermalStrain } = service;
  const boltStiffness = boltStiffnessNPerMm({ areaMm2, modulusMPa: boltModulusMPa, gripMm });
  const ofCone = (coneDeg: 30 | 45): ServiceOfCone => {
    const jointStiffness = jointStiffnessNPerMm({ gripMm, diameterMm, modulusMPa: jointModulusMPa, coneDeg });
    const stiffness = { boltStiffnessNPerMm: boltStiffness, jointStiffnessNPerMm: jointStiffness };
    const constant = jointConstant(stiffness);
    return {
      jointStiffnessNPerMm: jointStiffness,
      jointConstant: constant,
      tensionMPa:
        loadN === null ? null : serviceStressMPa({ jointConstant: constant, loadN, preloadN, stressAreaMm2: areaMm2 }),
      thermalLoadN: thermalStrain === null ? null : thermalLoadN({ ...stiffness, gripMm, thermalStrain }),
    };
  };
  return {
    boltStiffnessNPerMm: boltStiffness,
    elongationMm: elongationMm({ preloadN, lengthMm: gripMm, areaMm2, modulusMPa: boltModulusMPa }),
    cone30: ofCone(30),
    cone45: ofCone(45),
  };
}
