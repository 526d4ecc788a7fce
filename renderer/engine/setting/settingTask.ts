import type { ToolSettingInput } from '../../../shared-types/toolSetting.ts';
import type { BandNm } from '../plan/resolved.ts';
import type { TorqueScale } from '../torque/scale.ts';
import type { TwistingPart } from '../torque/windUp.ts';
import type { Unit } from '../units/index.ts';

/** The input of command `setting` in the engine's own units. */
export interface SettingTask {
  callout: BandNm;
  running: BandNm | null;
  /** Null where the callout does not say. */
  runningIncluded: boolean | null;
  scale: TorqueScale;
  /** The tool's maximum on its own scale. */
  maxOnScale: { value: number; unit: Unit };
  /** Set ÷ applied. */
  correction: number;
  offsetHead: { leverMm: number; lengthMm: number; angleDeg: number } | null;
  rangeShareMin: number;
  siteC: number | null;
  distribution: NonNullable<ToolSettingInput['distribution']> | null;
  windUp: TwistingPart[] | null;
  preload: PreloadLimits | null;
  turning: Turning | null;
  /** What the input leaves open and was taken for granted. */
  assumptions: string[];
}

export interface PreloadLimits {
  preloadN: { min: number; max: number };
  nutFactor: NonNullable<ToolSettingInput['preloadLimits']>['nutFactor'];
  diameterMm: number;
  seed: number;
  samples: number;
}

export interface Turning {
  lengthMm: number;
  leadMm: number;
  swing: { swingDeg: number; stepDeg: number } | null;
  secondsPerTurn: number | null;
  secondsPerStroke: number | null;
}
