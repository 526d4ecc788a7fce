import type { Finding } from '../../../../shared-types/judged.ts';
import { atLeast, atMost } from '../../tolerance.ts';
import { showNumber } from '../../units/index.ts';
import type { Callout, PrintedEnd } from '../callout.ts';
import type { CalloutRule } from '../calloutCase.ts';
import { inUnit, torqueText } from '../words.ts';

const exact = 'Exact definitions of the units (1 in = 25.4 mm, 1 lb = 0.45359237 kg, g = 9.80665 m/s²).';

/**
 * `dual-unit`: an end of the band in the second unit that is off by more than one unit of its last printed digit, or that rounding
 * brought outside the band. One finding, of the worse end; its words tell both.
 */
export const dualUnit: CalloutRule = ({ callout }, found) => {
  const { alternative, band } = callout;
  if (alternative === null) return;
  const ends = [
    judgeEnd(callout, 'least', alternative.min, band.minNm),
    judgeEnd(callout, 'greatest', alternative.max, band.maxNm),
  ];
  const faults = ends.filter((fault) => fault !== null);
  const worst = faults.find(({ severity }) => severity === 'reject') ?? faults[0];
  if (worst === undefined) return;
  found.push({ ...worst, message: faults.map(({ message }) => message).join(' ') });
};

function judgeEnd(
  { band, unit }: Callout,
  name: 'least' | 'greatest',
  end: PrintedEnd,
  calledNm: number,
): Finding | null {
  const calledOut = inUnit(calledNm, end.unit);
  const isOff = !isWithin(end.value, calledOut - end.lastDigit, calledOut + end.lastDigit);
  const [lowNm, highNm] = band.minNm <= band.maxNm ? [band.minNm, band.maxNm] : [band.maxNm, band.minNm];
  if (!isOff && isWithin(end.nm, lowNm, highNm)) return null;
  const printed = `The ${name} in the second unit, ${end.digits} ${end.unit},`;
  const meant = `${torqueText(calledNm, unit)} = ${showNumber(calledOut, 6)} ${end.unit}`;
  const off = showNumber(Math.abs(end.value - calledOut));
  return {
    rule: 'dual-unit',
    severity: isOff ? 'reject' : 'query',
    message: isOff
      ? `${printed} is ${off} ${end.unit} off: ${meant}, and one unit of the last digit is ${end.lastDigit}.`
      : `${printed} is rounded out of the band: ${meant}.`,
    value: end.value,
    limit: calledOut,
    unit: end.unit,
    source: exact,
  };
}

function isWithin(value: number, least: number, greatest: number): boolean {
  return atLeast(value, least) && atMost(value, greatest);
}
