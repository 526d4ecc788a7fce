import type { AsRunResult, AsRunRow, PassingCycle, WearSeries } from '../../../shared-types/asRun.ts';
import { sourceText } from '../callout/calloutsCsv.ts';
import { showNumber } from '../units/index.ts';

/**
 * Judged records for reading: the counts, every finding with its source, the series, what was passed over, the caution.
 *
 * @param result - as judgeAsRun gives it
 * @returns the text, a line for each thing said
 * @throws nothing
 * @source project's own words
 * @validity numbers to four digits; the result carries them whole
 * @example "40 records: 22 conforming, 4 nonconforming, 14 indeterminate."
 */
export function asRunText(result: AsRunResult): string {
  const { summary, rows, series, wearMethod, reopened = [], skipped = [], unknownColumns, caution } = result;
  const lines = [
    `${rows.length} records: ${summary.conforming} conforming, ${summary.nonconforming} nonconforming, ${summary.indeterminate} indeterminate.`,
    ...rows.flatMap((row) => ['', ...rowLines(row)]),
    ...(series.length === 0
      ? []
      : ['', 'Breakaway torque over the cycles', ...series.flatMap(seriesLines), `  ${wearMethod}`]),
    ...(reopened.length === 0 ? [] : ['', 'Tools found out of calibration']),
    ...reopened.map(
      ({ serial, lastGood, foundOut, rows: open }) =>
        `  ${serial}: found out ${foundOut}, last known to be right ${lastGood ?? 'on no day'}; open again: ${open.length === 0 ? 'nothing' : open.join('; ')}`,
    ),
    ...(skipped.length === 0 ? [] : ['', 'Passed over']),
    ...skipped.map(
      ({ file, row, message }) => `  ${file === undefined ? '' : `${file}, `}line ${row ?? ''}: ${message}`,
    ),
    ...(unknownColumns.length === 0 ? [] : ['', `Columns that no rule reads: ${unknownColumns.join(', ')}`]),
    '',
    caution,
    '',
  ];
  return lines.join('\n');
}

function rowLines({ callout, position, cycle, pass, decision, findings }: AsRunRow): string[] {
  const ofPass = pass === null ? '' : `, pass ${pass}`;
  return [
    `${callout}, position ${position}, cycle ${cycle}${ofPass}: ${decision}`,
    ...findings.flatMap(({ severity, rule, message, source }) => [
      `  ${severity} ${rule}: ${message}`,
      `    ${sourceText(source)}`,
    ]),
  ];
}

function seriesLines({ callout, position, readings, minimumNm, next, passing }: WearSeries): string[] {
  const read = readings.map(({ cycle, breakawayNm }) => `${cycle}: ${showNumber(breakawayNm)}`).join(', ');
  const minimum = minimumNm === null ? 'no minimum held' : `minimum ${showNumber(minimumNm)} N·m`;
  const expected =
    next === null
      ? []
      : [
          `    cycle ${next.cycle}: ${showNumber(next.torqueNm)} N·m, 95 % interval ${showNumber(next.intervalNm.min)} to ${showNumber(next.intervalNm.max)} N·m${next.straight ? '' : '; the readings bend, the line is a poor guide'}`,
        ];
  return [
    `  ${callout}, position ${position}: ${read} N·m; ${minimum}`,
    ...expected,
    `    passes under the minimum: ${passingText(passing)}`,
  ];
}

/** When a series passes under its minimum, in words. */
function passingText({ status, why, fromCycle, toCycle, likeliestCycle }: PassingCycle): string {
  const likeliest =
    likeliestCycle === null ? '' : `; at cycle ${likeliestCycle} if it goes on falling by the same share`;
  switch (status) {
    case 'between':
      return `${fromCycle === toCycle ? `cycle ${toCycle}` : `cycle ${fromCycle} to ${toCycle}`}, 95 % interval${likeliest}`;
    case 'not-before':
      return `not before cycle ${fromCycle} (95 %); when, and whether at all, cannot be known${likeliest}`;
    case 'under-already':
      return `already, for ${why}`;
    case 'cannot-know':
      return `cannot be known: ${why}`;
  }
}
