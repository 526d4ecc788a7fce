import { atLeast, atMost } from '../../tolerance.ts';
import type { BandNm } from '../../plan/resolved.ts';
import type { CalloutRule } from '../calloutCase.ts';
import type { ComparedBand } from '../heldFacts.ts';
import { notHeldNote } from '../notHeld.ts';
import { showNumber, type Unit } from '../../units/index.ts';
import { isEmpty } from '../torqueOfCallout.ts';
import { torqueText } from '../words.ts';

/**
 * `outside-published-band`: the callout lies in none of the bands held for its thread and, where it names one, its lubrication.
 *
 * A greatest allowable torque printed alone is a band from the least of the same table's standard band for the same nut. A single value is
 * both ends of its band; where the document states a tolerance for it, the finding says whether the callout keeps to that.
 */
export const publishedBand: CalloutRule = ({ callout }, found) => {
  const { thread, lubrication, band, unit } = callout;
  if (isEmpty(band)) return;
  const { bands } = thread.bands(lubrication);
  const [first] = bands;
  if (first === undefined) {
    const of = lubrication === null ? '' : ` with "${lubrication.slice(0, 80)}" in its condition`;
    const note = `No published torque band is held for ${thread.thread.designation}${of}.`;
    const finding = thread.sameFinding(note, () => notHeldNote('outside-published-band', note));
    if (finding !== null) found.push(finding);
    return;
  }
  for (const published of bands) if (isInside(band, published)) return;
  const nearest = nearestOf(band, bands, first);
  const others = bands.length === 1 ? '' : `; it lies in none of the ${bands.length} bands held`;
  found.push({
    rule: 'outside-published-band',
    severity: 'query',
    message: `${torqueText(band.minNm, unit)} to ${torqueText(band.maxNm, unit)} lies outside the nearest published band, ${bandText(nearest, unit)} (${nearest.source.number}: ${nearest.condition})${others}.${toleranceText(band, nearest, unit)}`,
    ...compared(band, nearest),
    unit: 'N·m',
    source: nearest.source,
  });
};

/** Whether the whole callout lies in one published band. */
export function isInside(band: BandNm, { floorNm, maxNm }: ComparedBand): boolean {
  return (floorNm === null || atLeast(band.minNm, floorNm)) && (maxNm === null || atMost(band.maxNm, maxNm));
}

function nearestOf(band: BandNm, bands: readonly ComparedBand[], first: ComparedBand): ComparedBand {
  let nearest = first;
  for (const each of bands) if (distance(band, each) < distance(band, nearest)) nearest = each;
  return nearest;
}

/** By how much a callout sticks out of a band [N·m]. */
function distance(band: BandNm, { floorNm, maxNm }: ComparedBand): number {
  return Math.max(floorNm === null ? 0 : floorNm - band.minNm, maxNm === null ? 0 : band.maxNm - maxNm);
}

/** The end that sticks out further, and what it passes. */
function compared(band: BandNm, { floorNm, maxNm }: ComparedBand): { value: number; limit: number } {
  const under = floorNm === null ? Number.NEGATIVE_INFINITY : floorNm - band.minNm;
  const over = maxNm === null ? Number.NEGATIVE_INFINITY : band.maxNm - maxNm;
  return over >= under
    ? { value: band.maxNm, limit: maxNm ?? band.maxNm }
    : { value: band.minNm, limit: floorNm ?? band.minNm };
}

function toleranceText({ minNm, maxNm }: BandNm, { tolerance }: ComparedBand, unit: Unit): string {
  if (tolerance === undefined) return '';
  const keeps = atLeast(minNm, tolerance.minNm) && atMost(maxNm, tolerance.maxNm) ? 'keeps' : 'does not keep';
  return ` The document states a tolerance of ${showNumber(tolerance.percent)} %, ${torqueText(tolerance.minNm, unit)} to ${torqueText(tolerance.maxNm, unit)}: the callout ${keeps} to it.`;
}

function bandText(band: ComparedBand, unit: Unit): string {
  const known = band.words.get(unit) ?? wordsOf(band, unit);
  band.words.set(unit, known);
  return known;
}

function wordsOf({ minNm, maxNm, printed }: ComparedBand, unit: Unit): string {
  const ends = [...new Set([printed.min, printed.max])].filter((end) => end !== null);
  const asPrinted = `as printed ${ends.join(' to ')} ${printed.unit}`;
  if (maxNm === null) return `at least ${torqueText(minNm ?? 0, unit)}, ${asPrinted}`;
  if (minNm === null) return `at most ${torqueText(maxNm, unit)}, ${asPrinted}`;
  return minNm === maxNm
    ? `${torqueText(minNm, unit)}, ${asPrinted}`
    : `${torqueText(minNm, unit)} to ${torqueText(maxNm, unit)}, ${asPrinted}`;
}
