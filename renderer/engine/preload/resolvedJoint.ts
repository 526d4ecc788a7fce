import type { RelaxationForm, ScrewThread, TorqueBand, Torsion } from './formula/index.ts';

/** A screw, designated or not. */
export interface ResolvedScrew extends ScrewThread {
  /** d, where a designation says it [mm]. */
  nominalDiameterMm: number | null;
  /** d3, where one is held or given [mm]. */
  rootDiameterMm: number | null;
  /** As of the designation; the root's section of another screw; null where neither is held [mm²]. */
  stressAreaMm2: number | null;
}

/** How torque becomes preload. */
export type Tightening =
  | { by: 'nutFactor'; nominal: number; min: number; max: number; diameterMm: number }
  | { by: 'friction'; form: 'screw' | 'linear'; thread: number; bearing: number; bearingDiameterMm: number };

/** What the joint is tightened to. */
export type Target =
  | { to: 'torque'; torque: TorqueBand; torqueIs: 'wrench' | 'seating' }
  | { to: 'preload'; preloadN: number }
  | { to: 'yieldShare'; share: number }
  | { to: 'stressShare'; share: number };

/** One joint in N, mm, MPa and N·m, every default filled in: all that its numbers follow from. */
export interface ResolvedJoint {
  screw: ResolvedScrew;
  tightening: Tightening;
  target: Target;
  running: TorqueBand;
  scatter: number;
  scatterOf: 'band' | 'nominal';
  boltsSharing: number;
  relaxation: { share: number; form: RelaxationForm };
  thermalGainN: number;
  thermalLossN: number;
  torsion: Torsion;
  proofMPa: number | null;
  yieldMPa: number | null;
}
