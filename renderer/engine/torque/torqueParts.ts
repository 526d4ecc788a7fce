import type { BandNm, ResolvedStep } from '../plan/resolved.ts';
import { convertValue, roundInward, showBand, showLimit, type UnitsShown } from '../units/index.ts';

/** A callout taken apart: what stands on the wrench is what seats the joint and what turns the locking fastener. */
export interface TorqueParts {
  /** On the wrench: where the applied torque must lie. */
  wrench: BandNm;
  running: BandNm | null;
  /** Left for seating; null where no running torque is known, or where nothing is left. */
  seating: BandNm | null;
}

/**
 * A step's callout and its parts.
 *
 *   wrench = seating + running. Running included in the callout: seating = [min − running max, max − running min];
 *   running to be added: seating is the callout itself.
 *
 * @returns the bands [N·m]; null for a step without a callout
 * @throws nothing
 * @source wrench = seating + running, ends taken against each other: the contract's `preload` and `bag`, rule 6
 * @validity running torque as the plan gives it
 * @example a callout of 30 to 35 N·m with 1 to 3 N·m of running torque in it: seating 27 to 34 N·m
 */
export function torqueParts({ callout, running, runningIncluded, aim }: ResolvedStep): TorqueParts | null {
  if (callout === null || aim === null) return null;
  if (running === null) return { wrench: aim, running: null, seating: null };
  if (!runningIncluded) return { wrench: aim, running, seating: callout };
  const seating = { minNm: callout.minNm - running.maxNm, maxNm: callout.maxNm - running.minNm };
  return { wrench: aim, running, seating: seating.minNm > 0 && seating.minNm <= seating.maxNm ? seating : null };
}

/**
 * A computed band in the unit its step is written in, its ends rounded inward, then as the user wants it shown.
 *
 * @returns both ends and the unit
 * @throws nothing a step's own reading has not thrown
 * @source project rule: limits convert inward
 * @validity limits; an applied band is none
 * @example shownBandNm({ minNm: 27, maxNm: 34 }, step, 'as-written') // '27–34 N·m'
 */
export function shownBandNm({ minNm, maxNm }: BandNm, step: ResolvedStep, mode: UnitsShown): string {
  const unit = step.shown.torque;
  if (minNm > maxNm) return 'empty band';
  // There and back through N·m leaves binary noise behind the twelfth digit, which inward rounding would take for a limit.
  const inUnit = (nm: number): number => Number(convertValue(nm, 'N·m', unit).toPrecision(12));
  const { min, max } = roundInward({ min: inUnit(minNm), max: inUnit(maxNm) });
  return showBand(`${min} ${unit}`, `${max} ${unit}`, mode);
}

/** What a step's writer gave of its torque, as typed. */
export interface WrittenTorque {
  callout?: { min: string; max: string } | undefined;
  running?: { min: string; max: string } | undefined;
  demand?: string | undefined;
}

/**
 * Callout, running torque apart, and their sum with its parts: never one folded into the other unsaid.
 *
 * @param step - as resolved
 * @param written - the same step as its plan writes it
 * @param units - how the user wants quantities shown
 * @returns one text for each part; none for a step without torque
 * @throws nothing a step's own reading has not thrown
 * @source as torqueParts
 * @validity as torqueParts
 * @example ['callout 30–35 N·m', 'of it running 1–3 N·m', 'left for seating 27–34 N·m']
 */
export function torqueTexts(step: ResolvedStep, written: WrittenTorque | undefined, units: UnitsShown): string[] {
  const texts: string[] = [];
  if (written?.demand !== undefined) texts.push(`must bear ${showLimit(written.demand, 'minimum', units)}`);
  if (written?.callout === undefined) return texts;
  const callout = showBand(written.callout.min, written.callout.max, units);
  texts.push(`callout ${callout}`);
  const parts = torqueParts(step);
  if (written.running === undefined || parts?.running === null || parts === null) {
    texts.push('no running torque given');
    return texts;
  }
  const running = showBand(written.running.min, written.running.max, units);
  if (step.runningIncluded) {
    texts.push(`of it running ${running}`);
    texts.push(
      parts.seating === null
        ? 'nothing left for seating at the worst running torque'
        : `left for seating ${shownBandNm(parts.seating, step, units)}`,
    );
  } else {
    texts.push(`running ${running}, to be added`);
    texts.push(`callout + running, on the wrench ${shownBandNm(parts.wrench, step, units)}`);
  }
  return texts;
}
