import type { BandNm, ResolvedStep } from '../../engine/plan/resolved.ts';
import { convertValue, roundInward, showBand } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';

/** A callout taken apart: what stands on the wrench is what seats the joint and what turns the locking fastener. */
export interface TorqueParts {
  /** On the wrench: where the applied torque must lie. */
  wrench: BandNm;
  running: BandNm | null;
  /** Left for seating; null where no running torque is known, or where nothing is left. */
  seating: BandNm | null;
}

/**
 *   wrench = seating + running. Running included in the callout: seating = [min − running max, max − running min];
 *   running to be added: seating is the callout itself.
 *
 * @source wrench = seating + running, ends taken against each other: the contract's `preload` and `bag`, rule 6
 */
export function torqueParts({ callout, running, runningIncluded, aim }: ResolvedStep): TorqueParts | null {
  if (callout === null || aim === null) return null;
  if (running === null) return { wrench: aim, running: null, seating: null };
  if (!runningIncluded) return { wrench: aim, running, seating: callout };
  const seating = { minNm: callout.minNm - running.maxNm, maxNm: callout.maxNm - running.minNm };
  return { wrench: aim, running, seating: seating.minNm > 0 && seating.minNm <= seating.maxNm ? seating : null };
}

/** A computed band in the unit its step is written in, its ends rounded inward, then as the user wants it shown. */
export function shownBandNm({ minNm, maxNm }: BandNm, step: ResolvedStep, mode: UnitsShown): string {
  const unit = step.shown.torque;
  if (minNm > maxNm) return 'empty band';
  // There and back through N·m leaves binary noise behind the twelfth digit, which inward rounding would take for a limit.
  const inUnit = (nm: number): number => Number(convertValue(nm, 'N·m', unit).toPrecision(12));
  const { min, max } = roundInward({ min: inUnit(minNm), max: inUnit(maxNm) });
  return showBand(`${min} ${unit}`, `${max} ${unit}`, mode);
}
