import { atLeast, atMost } from '../tolerance.ts';
import { showBand, showQuantity, type UnitsShown } from '../units/index.ts';
import type { PublishedEnd } from './publishedSpan.ts';
import type { TorquePlausibility } from './torquePlausibility.ts';

/**
 * What a person is told of a torque's plausibility: a question where it lies outside everything published, one line where nothing is
 * held, nothing where it lies within, for that is no approval.
 *
 * @param x.thread - designation
 * @param x.torque - both ends as typed
 * @param x.units - how the user wants quantities shown
 * @returns the words, the sources in them; null where there is nothing to say
 * @throws nothing that torquePlausibility has not thrown before
 * @source the sources of the span, named in the words
 * @validity words for torquePlausibility's answer on the same thread and torque
 * @example 'Is the unit right? 50–70 lbf·ft goes above all that is published for 1/4-28: 25 lbf·in (…) to 10 lbf·ft (…). …'
 */
export function plausibilityText(
  { verdict, typedNm, span, meant }: TorquePlausibility,
  x: { thread: string; torque: { min: string; max: string }; units: UnitsShown },
): string | null {
  if (verdict === 'within') return null;
  if (span === null) return `No published value held for ${x.thread}: whether the unit is right is not checked.`;
  const torque = showBand(x.torque.min, x.torque.max, x.units);
  const { least, greatest } = span;
  const isBelow = !atLeast(typedNm.min, least.nm);
  const isAbove = !atMost(typedNm.max, greatest.nm);
  const where = isBelow && isAbove ? 'goes beyond' : isAbove ? 'goes above' : 'goes below';
  const units = meant.join(' or ');
  return [
    ...(units === '' ? [] : ['Is the unit right?']),
    `${torque} ${where} all that is published for ${x.thread}: ${endText(least, x.units)} to ${endText(greatest, x.units)}.`,
    ...(units === '' ? [] : [`In ${units} the same figures would lie within it.`]),
    'A question, not a limit.',
  ].join(' ');
}

function endText({ printed, matched, source }: PublishedEnd, units: UnitsShown): string {
  const how = matched === 'diameter' ? ', by diameter' : '';
  return `${showQuantity(printed, units)} [${source.number}, ${source.table}${how}]`;
}
