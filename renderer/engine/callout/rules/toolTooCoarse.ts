import { atMost } from '../../tolerance.ts';
import type { BandNm } from '../../plan/resolved.ts';
import type { CalloutRule } from '../calloutCase.ts';
import { isEmpty } from '../torqueOfCallout.ts';
import { percentText, torqueText } from '../words.ts';

const source =
  'Interval rule after ISO 14253-1 (from memory), applied to a permissible deviation of the reading, which is no expanded uncertainty: min/(1 - a) at most max/(1 + a).';

/** `tool-too-coarse`: no setting of a tool so accurate keeps to the band. Where running torque narrows the aim further, a note says it. */
export const toolTooCoarse: CalloutRule = ({ callout, torque }, found) => {
  const { toolAccuracy: share, band, unit } = callout;
  if (share === null || isEmpty(band)) return;
  const least = band.minNm / (1 - share);
  const greatest = band.maxNm / (1 + share);
  if (!atMost(least, greatest)) {
    found.push({
      rule: 'tool-too-coarse',
      severity: 'query',
      message: `A tool of ± ${percentText(share)} must be set to at least ${torqueText(least, unit)} and at most ${torqueText(greatest, unit)} to keep to the band: no setting does. At most ± ${percentText(accuracyMax(band))} would do.`,
      value: share,
      limit: accuracyMax(band),
      unit: 'share of the reading',
      source,
    });
    return;
  }
  if (torque.aim === band || isEmpty(torque.aim) || atMost(share, accuracyMax(torque.aim))) return;
  found.push({
    rule: 'tool-too-coarse-with-running',
    severity: 'note',
    message: `A tool of ± ${percentText(share)} keeps to the band, but not to what the running torque leaves of it on the wrench: at most ± ${percentText(accuracyMax(torque.aim))} would do.`,
    value: share,
    limit: accuracyMax(torque.aim),
    unit: 'share of the reading',
    source,
  });
};

/**
 * The greatest permissible deviation with which some setting keeps to a band: (max − min)/(max + min).
 *
 * @returns a share of the reading; 0 where the band has no width
 */
export function accuracyMax({ minNm, maxNm }: BandNm): number {
  return (maxNm - minNm) / (maxNm + minNm);
}
