import type { Calibration, ToolSettingResult } from '../../../shared-types/toolSetting.ts';
import { RefusedError } from '../errors.ts';
import { citationOf, numberAt, rowWhere, toolTables } from '../handbook/index.ts';
import { atLeast, atMost } from '../tolerance.ts';

const table = toolTables['torque-tools-iso-6789'];
type Rule = (typeof table.rows)[number];

const deviationAbove = 'permissible deviation, setting tool type II class A, range maximum above 10 N*m';
const deviationUpTo = 'permissible deviation, setting tool type II class A, range maximum 10 N*m or less';
/** The end of the range at which the permissible deviation changes, as both rules word it [N·m]. */
const changesAtNm = Number(/maximum ([\d.]+) N\*m or less/.exec(deviationUpTo)?.[1]);

/**
 * What the standard of torque tools says of a tool with this maximum: permissible deviation, check points, conditions.
 *
 *   table lookup; shares are percents ÷ 100
 *
 * @param maxNm - the tool's maximum [N·m], > 0
 * @returns shares of the maximum or of the reading, °C, s
 * @throws RefusedError not-held where a rule is not held
 * @source ISO 6789 (2003) / ISO 6789-1 (2017), table torque-tools-iso-6789; the row on the later edition is from memory
 * @validity hand torque tools; the deviation is that of setting tools type II class A
 * @example calibrationOf(50).permissibleDeviation // 0.04
 */
export function calibrationOf(maxNm: number): Calibration {
  const deviation = rowWhere(table, 'rule', atMost(maxNm, changesAtNm) ? deviationUpTo : deviationAbove);
  const ambient = rowWhere(table, 'rule', 'ambient temperature range');
  const lastPart = rowWhere(table, 'rule', 'time for the last 20 % of the load (setting tools)');
  return {
    permissibleDeviation: numberAt(table, deviation, 'value_percent') / 100,
    appliesTo: deviation.rule,
    checkShares: listed(rowWhere(table, 'rule', 'check points as share of range maximum')).map((p) => p / 100),
    lowestCheckLater: said(rowWhere(table, 'rule', 'lowest check point in the 2017 edition')),
    testDeviceError:
      numberAt(table, rowWhere(table, 'rule', 'permissible error of the test device'), 'value_percent') / 100,
    preloadingCycles: numberAt(table, rowWhere(table, 'rule', 'preloading cycles before the check'), 'value_count'),
    ambientC: { min: numberAt(table, ambient, 'value_degC_min'), max: numberAt(table, ambient, 'value_degC_max') },
    lastFifthOfLoadS: { min: numberAt(table, lastPart, 'value_s_min'), max: numberAt(table, lastPart, 'value_s_max') },
    source: citationOf(table),
  };
}

function listed({ rule, value_percent_list: list }: Rule): number[] {
  if (list !== undefined) return list;
  throw notHeld(rule);
}

function said({ rule, value_text: text, basis }: Rule): string {
  if (text !== undefined) return `${text} (${basis})`;
  throw notHeld(rule);
}

function notHeld(rule: string): RefusedError {
  return new RefusedError({ code: 'not-held', message: `${table.source.number} prints no value for "${rule}".` });
}

/**
 * Whether a site is warmer or colder than a tool's accuracy was proven at.
 *
 *   query where t < 18 °C or t > 28 °C, the ends of the table
 *
 * @param siteC - temperature of the site [°C]; null where none is given
 * @param calibration - the standard's conditions [°C]
 * @returns no query, or one
 * @throws nothing
 * @source ISO 6789, ambient temperature range
 * @validity the certificate may state another range
 * @example temperatureQueries(31, calibrationOf(50)).length // 1
 */
export function temperatureQueries(
  siteC: number | null,
  { ambientC, source }: Calibration,
): ToolSettingResult['queries'] {
  if (siteC === null || (atLeast(siteC, ambientC.min) && atMost(siteC, ambientC.max))) return [];
  const message = `the site is at ${siteC} °C; the accuracy of torque tools is checked at ${ambientC.min} to ${ambientC.max} °C`;
  return [{ rule: 'site-temperature', message, source }];
}
