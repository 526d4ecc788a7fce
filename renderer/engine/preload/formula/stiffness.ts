import { demand } from './demand.ts';

interface Grip {
  /** L, length clamped [mm]. */
  gripMm: number;
  /** D, nominal diameter of the bolt [mm]. */
  diameterMm: number;
  /** E of the clamped parts [MPa]. */
  modulusMPa: number;
}

/**
 * Stiffness of a bolt of one section.
 *
 *   Kb = A·E/L
 *
 * @param x.areaMm2 - A, section [mm²], > 0
 * @param x.modulusMPa - E of the bolt [MPa], > 0
 * @param x.gripMm - L [mm], > 0
 * @returns Kb [N/mm]
 * @throws RefusedError out-of-range, not-finite
 * @source Hooke's law; NASA TM-106943 (1995), text (read)
 * @validity one section over the whole grip
 * @example boltStiffnessNPerMm({ areaMm2: 58, modulusMPa: 205000, gripMm: 40 }) // 297250
 */
export function boltStiffnessNPerMm(x: { areaMm2: number; modulusMPa: number; gripMm: number }): number {
  demand(x.areaMm2 > 0, 'section', x.areaMm2, 'more than 0 mm²');
  demand(x.modulusMPa > 0, 'modulus of the bolt', x.modulusMPa, 'more than 0 MPa');
  demand(x.gripMm > 0, 'grip', x.gripMm, 'more than 0 mm');
  return (x.areaMm2 * x.modulusMPa) / x.gripMm;
}

/**
 * Stiffness of the clamped parts as NASA TM-106943 prints it. Only to replay that document: it is the cone of one half of the
 * grip, twice the stiffness of the two that stand one on the other.
 *
 *   Kj = π·E·D/ln(5·(L + 0.5·D)/(L + 2.5·D))
 *
 * @param x.gripMm - L [mm], > 0
 * @param x.diameterMm - D [mm], > 0
 * @param x.modulusMPa - E of the clamped parts [MPa], > 0
 * @returns Kj [N/mm]
 * @throws RefusedError out-of-range, not-finite
 * @source NASA TM-106943 (1995), text (read)
 * @validity replay of the document's own numbers
 * @example nasaJointStiffnessNPerMm({ gripMm: 25.4, diameterMm: 6.35, modulusMPa: 68948 }) // 1.108e6
 */
export function nasaJointStiffnessNPerMm(x: Grip): number {
  demandGrip(x);
  const { gripMm: L, diameterMm: D, modulusMPa: E } = x;
  return (Math.PI * E * D) / Math.log((5 * (L + 0.5 * D)) / (L + 2.5 * D));
}

/**
 * Stiffness of the clamped parts as two equal frusta of a cone, heads of 1.5 D, one on the other.
 *
 *   45°: π·E·D/(2·ln(5·(L + 0.5·D)/(L + 2.5·D)))
 *   30°: 0.5774·π·E·D/(2·ln(5·(0.5774·L + 0.5·D)/(0.5774·L + 2.5·D)))
 *
 * @param x.gripMm - L [mm], > 0
 * @param x.diameterMm - D [mm], > 0
 * @param x.modulusMPa - E of the clamped parts, all of one [MPa], > 0
 * @param x.coneDeg - half angle of the cone, 30 or 45
 * @returns km [N/mm]
 * @throws RefusedError out-of-range, not-finite
 * @source mechanical engineering design textbook, 9th ed., eq. 8-20 to 8-22; the 45° form after NASA TM-106943, halved
 * @validity parts of one material, wide enough for the cone
 * @example jointStiffnessNPerMm({ gripMm: 40, diameterMm: 10, modulusMPa: 205000, coneDeg: 30 }) // 1.735e6
 */
export function jointStiffnessNPerMm(x: Grip & { coneDeg: 30 | 45 }): number {
  demandGrip(x);
  const { diameterMm: D, modulusMPa: E } = x;
  const slope = x.coneDeg === 45 ? 1 : 0.5774;
  const L = slope * x.gripMm;
  return (slope * Math.PI * E * D) / (2 * Math.log((5 * (L + 0.5 * D)) / (L + 2.5 * D)));
}

function demandGrip(x: Grip): void {
  demand(x.gripMm > 0, 'grip', x.gripMm, 'more than 0 mm');
  demand(x.diameterMm > 0, 'diameter', x.diameterMm, 'more than 0 mm');
  demand(x.modulusMPa > 0, 'modulus of the clamped parts', x.modulusMPa, 'more than 0 MPa');
}
