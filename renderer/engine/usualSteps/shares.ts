import { readQuantity, showNumber } from '../units/index.ts';

/**
 * Shares of a callout as a person lists them.
 *
 * @param text - "50 %, 75 %, 100 %"; the sign may be left out; empty: no shares
 * @returns the shares as numbers in percent, rising, over 0 and at most 100; or why the text is none
 */
export function sharesOfText(text: string): { shares: number[] } | { why: string } {
  const parts = text.split(/[;,\s]+/).filter((part) => part !== '' && part !== '%');
  const shares: number[] = [];
  for (const part of parts) {
    const digits = /^(\d+(?:\.\d+)?)%?$/.exec(part)?.[1];
    if (digits === undefined) return { why: `"${part}" is no share: write them as "50 %, 75 %" or "60 %".` };
    const share = Number(digits);
    if (share <= 0 || share > 100)
      return { why: `"${part}" is not over 0 % and at most 100 %: a pass is on the way to the callout.` };
    const before = shares.at(-1);
    if (before !== undefined && share <= before)
      return { why: `"${part}" is not more than the ${before} % before it: passes rise.` };
    shares.push(share);
  }
  return { shares };
}

/**
 * A torque's share, in the unit it was typed in.
 *
 *   T·p/100
 *
 * @param torque - T, as typed, "45 lbf·ft"
 * @param sharePercent - p, share of it, 0 < p ≤ 100
 * @returns "22.5 lbf·ft"; to 12 digits, so that nothing is rounded that a person typed
 * @throws RefusedError where the text is no torque
 * @source common practice, no source: tightening in passes
 * @validity any torque
 * @example shareOfTorque('45 lbf·ft', 50) // "22.5 lbf·ft"
 */
export function shareOfTorque(torque: string, sharePercent: number): string {
  const { value, unit } = readQuantity(torque, 'torque');
  return `${showNumber((value * sharePercent) / 100, 12)} ${unit}`;
}
