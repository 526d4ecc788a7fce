import type { RangeUse } from '../../../shared-types/toolSetting.ts';
import { citationOf, numberAt, practiceTables, rowWhere, toolTables } from '../handbook/index.ts';
import type { BandNm } from '../plan/resolved.ts';
import { atLeast, atMost } from '../tolerance.ts';
import { convertValue, type Unit } from '../units/index.ts';
import { calibrationOf } from './calibration.ts';

/**
 * What each document held says of how much of a torque tool's range to use, side by side: they differ.
 *
 *   share = setting ÷ tool maximum, against each document's own limits
 *
 * @param x.maxNm - the tool's maximum [N·m], > 0
 * @param x.callout - which tool a manual takes for it [N·m]
 * @param x.rangeShare - share, setting ÷ maximum; null where nothing is set
 * @returns one entry for each rule; tools of other ranges are listed without a verdict, never interpolated between
 * @throws nothing
 * @source tables common-practice, torque-tool-range-laboratory, torque-tool-effective-range-army, torque-tool-choice-army,
 *   torque-tools-iso-6789
 * @validity as each document says
 * @example a tool of 200 lbf·in set at 30 lbf·in: outside 50 to 150 of TB 43-0218, outside the common 20 to 100 %
 */
export function rangeUses(x: { maxNm: number; callout: BandNm; rangeShare: number | null }): RangeUse[] {
  return [...commonPractice(x), ...laboratory(x), ...checkPoints(x), ...effective(x), ...chosenFor(x)];
}

type Use = Parameters<typeof rangeUses>[0];

function within({ rangeShare }: Use, minShare: number, maxShare: number | null): boolean | null {
  if (rangeShare === null) return null;
  return atLeast(rangeShare, minShare) && (maxShare === null || atMost(rangeShare, maxShare));
}

function commonPractice(x: Use): RangeUse[] {
  const table = practiceTables['common-practice'];
  const row = rowWhere(table, 'statement', 'use a torque tool between this share of its range maximum and 100 %');
  const minShare = numberAt(table, row, 'value_low_percent') / 100;
  const maxShare = numberAt(table, row, 'value_high_percent') / 100;
  return [
    { says: row.statement, minShare, maxShare, inside: within(x, minShare, maxShare), source: citationOf(table) },
  ];
}

function laboratory(x: Use): RangeUse[] {
  const table = toolTables['torque-tool-range-laboratory'];
  return table.rows.map((row) => {
    const minShare = row.value_percent / 100;
    return { says: row.rule, minShare, maxShare: null, inside: within(x, minShare, null), source: citationOf(table) };
  });
}

function checkPoints(x: Use): RangeUse[] {
  const { checkShares, lowestCheckLater, source } = calibrationOf(x.maxNm);
  const minShare = Math.min(...checkShares);
  const maxShare = Math.max(...checkShares);
  return [
    {
      says: `checked at ${checkShares.map((share) => `${Math.round(share * 100)} %`).join(', ')} of the maximum (2003)`,
      minShare,
      maxShare,
      inside: within(x, minShare, maxShare),
      source,
    },
    { says: `lowest check point: ${lowestCheckLater}`, minShare: null, maxShare: null, inside: null, source },
  ];
}

function effective(x: Use): RangeUse[] {
  const table = toolTables['torque-tool-effective-range-army'];
  return table.rows.map((row) => {
    const minShare = row.effective_range_min / row.stated_range_max;
    const maxShare = row.effective_range_max / row.stated_range_max;
    const range = `${row.stated_range_min} to ${row.stated_range_max}`;
    return {
      says: `a tool of ${range} ${unitOf(row)} is most effective at ${row.effective_range_min} to ${row.effective_range_max}`,
      minShare,
      maxShare,
      inside: isMaximum(x, row.stated_range_max, unitOf(row)) ? within(x, minShare, maxShare) : null,
      source: citationOf(table),
    };
  });
}

/** The manual's own choice of tool for a required torque; where several of its rows hold the callout, all. */
function chosenFor(x: Use): RangeUse[] {
  const table = toolTables['torque-tool-choice-army'];
  return table.rows
    .filter((row) => {
      const unit = unitOf(row);
      const from = convertValue(row.required_torque_min, unit, 'N·m');
      const to = convertValue(row.required_torque_max, unit, 'N·m');
      return atLeast(x.callout.minNm, from) && atMost(x.callout.maxNm, to);
    })
    .map((row) => {
      const minShare = row.required_torque_min / row.wrench_capacity;
      const maxShare = row.required_torque_max / row.wrench_capacity;
      return {
        says: `for ${row.required_torque_min} to ${row.required_torque_max} ${unitOf(row)} the tool of ${row.wrench_capacity} ${unitOf(row)} is taken`,
        minShare,
        maxShare,
        inside: isMaximum(x, row.wrench_capacity, unitOf(row)) ? within(x, minShare, maxShare) : null,
        source: citationOf(table),
      };
    });
}

function isMaximum({ maxNm }: Use, value: number, unit: Unit): boolean {
  const nm = convertValue(value, unit, 'N·m');
  return atLeast(nm, maxNm) && atMost(nm, maxNm);
}

function unitOf({ unit }: { unit: 'lbf*in' | 'lbf*ft' }): Unit {
  return unit === 'lbf*in' ? 'lbf·in' : 'lbf·ft';
}
