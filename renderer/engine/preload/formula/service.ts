import { demand } from './demand.ts';

/**
 * Preload gained or lost when bolt and parts stretch differently with temperature.
 *
 *   Kb·Kj/(Kb + Kj)·L·ΔT·Δα
 *
 * @param x.boltStiffnessNPerMm - Kb [N/mm], > 0
 * @param x.jointStiffnessNPerMm - Kj [N/mm], > 0
 * @param x.gripMm - L [mm], > 0
 * @param x.thermalStrain - ΔT·Δα, change of temperature times (expansion of the parts − expansion of the
 *   bolt), both in one scale [1], above −1 and below 1
 * @returns load [N]: above 0 gained, below 0 lost
 * @throws RefusedError out-of-range, not-finite
 * @source NASA TM-106943 (1995), text (read)
 * @validity elastic parts of one temperature
 * @example thermalLoadN({ boltStiffnessNPerMm: 184863, jointStiffnessNPerMm: 1107695, gripMm: 25.4, thermalStrain: 6.5e-4 }) // 2615.6
 */
export function thermalLoadN(x: {
  boltStiffnessNPerMm: number;
  jointStiffnessNPerMm: number;
  gripMm: number;
  thermalStrain: number;
}): number {
  const { boltStiffnessNPerMm: Kb, jointStiffnessNPerMm: Kj } = x;
  demand(Kb > 0, 'stiffness of the bolt', Kb, 'more than 0 N/mm');
  demand(Kj > 0, 'stiffness of the joint', Kj, 'more than 0 N/mm');
  demand(x.gripMm > 0, 'grip', x.gripMm, 'more than 0 mm');
  demand(Math.abs(x.thermalStrain) < 1, 'thermal strain', x.thermalStrain, 'above −1 and below 1');
  return ((Kb * Kj) / (Kb + Kj)) * x.gripMm * x.thermalStrain;
}

/**
 * Share of a load in service that the bolt takes.
 *
 *   C = kb/(kb + km)
 *
 * @param x.boltStiffnessNPerMm - kb [N/mm], > 0
 * @param x.jointStiffnessNPerMm - km [N/mm], > 0
 * @returns C, above 0 and below 1
 * @throws RefusedError out-of-range, not-finite
 * @source mechanical engineering design textbook, 9th ed., eq. (f) of section 8-4 and Example 8-3 (read)
 * @validity while the joint stays closed
 * @example jointConstant({ boltStiffnessNPerMm: 6.5, jointStiffnessNPerMm: 13.8 }) // 0.3202
 */
export function jointConstant(x: { boltStiffnessNPerMm: number; jointStiffnessNPerMm: number }): number {
  demand(x.boltStiffnessNPerMm > 0, 'stiffness of the bolt', x.boltStiffnessNPerMm, 'more than 0 N/mm');
  demand(x.jointStiffnessNPerMm > 0, 'stiffness of the joint', x.jointStiffnessNPerMm, 'more than 0 N/mm');
  return x.boltStiffnessNPerMm / (x.boltStiffnessNPerMm + x.jointStiffnessNPerMm);
}

/**
 * Tension in the bolt under its preload and a load in service.
 *
 *   σb = (C·P + F)/At
 *
 * @param x.jointConstant - C, 0 to 1
 * @param x.loadN - P, load that pulls the joint apart, for each bolt [N]
 * @param x.preloadN - F [N]
 * @param x.stressAreaMm2 - At [mm²], > 0
 * @returns σb [MPa]
 * @throws RefusedError out-of-range, not-finite
 * @source mechanical engineering design textbook, 9th ed., section 8-9 and Example 8-3 (read)
 * @validity while the joint stays closed: (1 − C)·P below F
 * @example serviceStressMPa({ jointConstant: 0.32, loadN: 26689, preloadN: 111206, stressAreaMm2: 240.6 }) // 497.7
 */
export function serviceStressMPa(x: {
  jointConstant: number;
  loadN: number;
  preloadN: number;
  stressAreaMm2: number;
}): number {
  demand(x.jointConstant >= 0 && x.jointConstant <= 1, 'joint constant', x.jointConstant, '0 to 1');
  demand(x.stressAreaMm2 > 0, 'stress area', x.stressAreaMm2, 'more than 0 mm²');
  return (x.jointConstant * x.loadN + x.preloadN) / x.stressAreaMm2;
}
