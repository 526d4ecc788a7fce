/** One function for each formula of torque, preload and stress; each refuses what lies outside its own range. */
export { assemblyArmMm, linearThreadArmMm } from './linearTorque.ts';
export { effectiveNutFactor, nutFactorPreloadN, nutFactorTorqueNm } from './nutFactor.ts';
export { greatestPreloadN, leastPreloadN, scatterOfSeveral, type RelaxationForm } from './range.ts';
export { bearingArmMm, flankFriction, screwThreadArmMm, tanLeadAngle, type ScrewThread } from './screwTorque.ts';
export { installationOf, seatingOfWrench, type TorqueBand } from './seating.ts';
export { jointConstant, serviceStressMPa, thermalLoadN } from './service.ts';
export { stressSharePreloadN, yieldSharePreloadN } from './shareOfYield.ts';
export { boltStiffnessNPerMm, jointStiffnessNPerMm, nasaJointStiffnessNPerMm } from './stiffness.ts';
export { equivalentMPa, stressDiameterMm, tensionMPa, torsionMPa, type Torsion } from './stress.ts';
export { elongationMm, screwEfficiency } from './work.ts';
