import { atLeast, atMost } from '../../tolerance.ts';
import { showNumber } from '../../units/index.ts';
import type { CalloutRule } from '../calloutCase.ts';
import { torqueText } from '../words.ts';

const inPasses =
  'Tightening in passes, each no lower than the one before, the last to the callout: common practice, no source.';
const byTurn = 'A fastener is turned by less than one turn after it is snug: common practice, no source.';
const turnMostDeg = 360;

/** `passes-falling`, `passes-last-differs`: the passes lead up to the band, and end in it. */
export const passes: CalloutRule = ({ callout }, found) => {
  const { passes: bands, band, unit } = callout;
  for (const [index, pass] of bands.entries()) {
    const before = bands[index - 1];
    if (before === undefined || (atLeast(pass.minNm, before.minNm) && atLeast(pass.maxNm, before.maxNm))) continue;
    const [value, limit] = atLeast(pass.minNm, before.minNm) ? [pass.maxNm, before.maxNm] : [pass.minNm, before.minNm];
    found.push({
      rule: 'passes-falling',
      severity: 'reject',
      message: `Pass ${index + 1} asks for ${torqueText(value, unit)}, ${torqueText(limit - value, unit)} less than the ${torqueText(limit, unit)} of the pass before: it turns nothing.`,
      value,
      limit,
      unit: 'N·m',
      source: inPasses,
    });
    break;
  }
  const last = bands.at(-1);
  if (last === undefined || (isSame(last.minNm, band.minNm) && isSame(last.maxNm, band.maxNm))) return;
  const [value, limit] = isSame(last.minNm, band.minNm) ? [last.maxNm, band.maxNm] : [last.minNm, band.minNm];
  found.push({
    rule: 'passes-last-differs',
    severity: 'reject',
    message: `The last pass is ${torqueText(last.minNm, unit)} to ${torqueText(last.maxNm, unit)}, and the callout ${torqueText(band.minNm, unit)} to ${torqueText(band.maxNm, unit)}: they must be the same.`,
    value,
    limit,
    unit: 'N·m',
    source: inPasses,
  });
};

/** `turn-over-one`: the angle after the snug torque is more than a turn. */
export const turnAfterSnug: CalloutRule = ({ callout }, found) => {
  const { angleDeg } = callout;
  if (angleDeg === null || atMost(angleDeg.max, turnMostDeg)) return;
  found.push({
    rule: 'turn-over-one',
    severity: 'query',
    message: `The fastener is to be turned by up to ${showNumber(angleDeg.max)} deg after the snug torque, more than one turn.`,
    value: angleDeg.max,
    limit: turnMostDeg,
    unit: 'deg',
    source: byTurn,
  });
};

function isSame(a: number, b: number): boolean {
  return atLeast(a, b) && atMost(a, b);
}
