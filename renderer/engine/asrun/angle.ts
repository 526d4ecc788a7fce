import type { Finding } from '../../../shared-types/judged.ts';
import { atLeast, atMost } from '../tolerance.ts';
import { showNumber } from '../units/index.ts';
import type { Aim } from './judgeTorque.ts';
import type { AsRunRecord } from './record.ts';

const source =
  'The callout’s own turn after the snug torque, which its band then is; held against the turn recorded (rule of this program).';

/**
 * `angle-outside-callout`, `angle-missing`: the turn after the snug torque, where the callout asks for one. Only of the last pass.
 */
export function angleFindings({ callout, angleDeg }: AsRunRecord, { earlierPass }: Aim): Finding[] {
  const asked = callout.angleDeg;
  if (asked === null || earlierPass !== null) return [];
  const band = `${showNumber(asked.min)} to ${showNumber(asked.max)} deg`;
  if (angleDeg === null) {
    return [
      {
        rule: 'angle-missing',
        severity: 'query',
        message: `The callout asks for a turn of ${band} after the snug torque, and none is recorded.`,
        source,
      },
    ];
  }
  const isLow = !atLeast(angleDeg, asked.min);
  if (!isLow && atMost(angleDeg, asked.max)) return [];
  const limit = isLow ? asked.min : asked.max;
  return [
    {
      rule: 'angle-outside-callout',
      severity: 'query',
      message: `The turn of ${showNumber(angleDeg)} deg after the snug torque is ${showNumber(Math.abs(angleDeg - limit))} deg ${isLow ? 'under' : 'over'} the ${band} of the callout.`,
      value: angleDeg,
      limit,
      unit: 'deg',
      source,
    },
  ];
}
