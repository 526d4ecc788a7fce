import type { BandNm } from '../../engine/plan/resolved.ts';
import type { Unit, UnitsShown } from '../../engine/units/index.ts';

export interface BandFigureProps {
  callout: BandNm;
  /** What the setting applies, ends in N·m; null while nothing is set. */
  applied: BandNm | null;
  setting: { value: number; unit: string } | null;
  running: BandNm | null;
  /** Whether the callout's band is on the wrench, running torque in it. */
  runningIncluded: boolean;
  /** The callout's unit as written. */
  unit: Unit;
  units: UnitsShown;
}

/** Callout as a box, applied band as a bar with its setting, running torque as its own part. */
export function BandFigure({ callout, unit }: BandFigureProps) {
  return (
    <p>
      {callout.minNm} {callout.maxNm} {unit}
    </p>
  );
}
