import type { PassingCycle, WearSeries } from '../../../shared-types/asRun.ts';
import { RefusedError } from '../../engine/errors.ts';
import { readQuantity, showQuantity } from '../../engine/units/index.ts';
import type { Unit, UnitsShown } from '../../engine/units/index.ts';
import { torqueUnitOf } from '../bench/shown.ts';

/** A torque as typed, in the units asked for; what cannot be read stands as it was typed. */
export function typedTorque(text: string, units: UnitsShown): string {
  if (text === '') return '';
  try {
    readQuantity(text, 'torque');
    return showQuantity(text, units);
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    return text;
  }
}

/** The unit a record's torques were typed in. */
export function recordUnit(texts: readonly string[]): Unit {
  return torqueUnitOf(texts.find((text) => text !== ''));
}

/** When a position's breakaway torque passes under its minimum, as a person says it. */
export function passingWords(passing: PassingCycle, minimumNm: number | null): string {
  const { status, why, fromCycle, toCycle, likeliestCycle, confidence } = passing;
  if (minimumNm === null) return 'Cannot know: no least breakaway torque is held for this callout.';
  const percent = `${Math.round(confidence * 100)} %`;
  switch (status) {
    case 'under-already':
      return `Under the minimum already: ${why}.`;
    case 'cannot-know':
      return `Cannot know: ${why}.`;
    case 'not-before': {
      const likely =
        likeliestCycle === null ? '' : ` At cycle ${likeliestCycle} if it goes on falling by the same share.`;
      return `Not under the minimum before cycle ${fromCycle} (${percent}); when, and whether at all, cannot be known.${likely}`;
    }
    case 'between': {
      const range =
        fromCycle === toCycle ? `${percent} at cycle ${toCycle}` : `${percent} between ${fromCycle} and ${toCycle}`;
      return likeliestCycle === null
        ? `Under the minimum: ${range}.`
        : `Under the minimum at cycle ${likeliestCycle}; ${range}.`;
    }
  }
}

/** Of a position: its forecast in words. */
export function seriesWords(series: WearSeries | null, readings: number): string {
  if (series !== null) return passingWords(series.passing, series.minimumNm);
  return readings === 0
    ? 'No breakaway torque is recorded: nothing can be said of its wear.'
    : `Cannot know: ${readings === 1 ? '1 breakaway torque is' : `${readings} breakaway torques are`} recorded, at least 3 cycles are needed.`;
}
