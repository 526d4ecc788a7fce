import type { Setting } from '../../../shared-types/bag.ts';
import { RefusedError } from '../errors.ts';
import type { ResolvedTool } from '../plan/resolved.ts';
import { multipleOf, multiplesInRange, namedInRange } from '../torque/scale.ts';
import { convertValue, quantityIn, readUnit } from '../units/index.ts';

/** Where a pass leads to on the tool's scale; or why it cannot be set there. */
export type PassSetting = { setting: Setting; isFinal: boolean } | { reason: string };

/**
 * A pass on a tool's own scale: the highest mark that is not above it. A share is one of the final setting.
 *
 * @param pass - "50 %", "30 lbf·ft"
 * @param final - what the tool is set to in the end
 * @returns the setting, and whether it is already the final one; the reason where the scale has none
 */
export function passSetting(pass: string, final: Setting, tool: ResolvedTool, rangeShareMin: number): PassSetting {
  const wantedNm = passNm(pass, final);
  if (wantedNm === null) return { reason: `“${pass}” is neither a share nor a torque` };
  const { torque } = tool;
  if (torque === null) return { reason: `${tool.id} measures no torque` };
  const [finalNm, slack] = [nmOf(final), 1 + 1e-9];
  if (wantedNm * slack >= finalNm) return { setting: final, isFinal: true };
  const marks =
    torque.increment === null || torque.settings !== null
      ? namedInRange(torque, rangeShareMin)
      : markBelow(torque, torque.increment, wantedNm, rangeShareMin);
  const below = marks.filter(({ nm }) => nm <= wantedNm * slack).toSorted((a, b) => b.nm - a.nm)[0];
  if (below === undefined) return { reason: `${tool.id} has no setting as low as ${pass}` };
  return { setting: { value: below.value, unit: below.unit }, isFinal: false };
}

function markBelow(
  torque: NonNullable<ResolvedTool['torque']>,
  increment: NonNullable<NonNullable<ResolvedTool['torque']>['increment']>,
  wantedNm: number,
  rangeShareMin: number,
) {
  const range = multiplesInRange(torque, rangeShareMin);
  const count = Math.floor((wantedNm / increment.nm) * (1 + 1e-9));
  return range === null || count < range.first ? [] : [multipleOf(increment, Math.min(count, range.last))];
}

function nmOf({ value, unit }: Setting): number {
  return convertValue(value, readUnit(unit).unit, 'N·m');
}

function passNm(pass: string, final: Setting): number | null {
  const [, share] = /^\s*(\d+(?:\.\d+)?)\s*%\s*$/.exec(pass) ?? [];
  if (share !== undefined) return (Number(share) / 100) * nmOf(final);
  try {
    return quantityIn(pass, 'torque', 'N·m');
  } catch (error) {
    if (error instanceof RefusedError) return null;
    throw error;
  }
}
