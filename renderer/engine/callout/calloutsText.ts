import type { CalloutRow, CalloutsResult } from '../../../shared-types/callout.ts';
import { sourceText } from './calloutsCsv.ts';

/** The judged callouts for reading: the counts, every finding with its source, what was passed over, the caution. */
export function calloutsText(result: CalloutsResult): string {
  const { summary, rows, skipped = [], unknownColumns, read, caution } = result;
  const lines = [
    `${rows.length} callouts: ${summary.conforming} conforming, ${summary.nonconforming} nonconforming, ${summary.indeterminate} indeterminate.`,
    ...(skipped.length === 0 ? [] : [`${skippedRows(result)} of the rows cannot be read and are passed over.`]),
    ...read.notes,
    ...rows.flatMap((row) => ['', ...rowLines(row)]),
    ...(skipped.length === 0 ? [] : ['', 'Passed over']),
    ...skipped.map(({ row, message }) => `  line ${row ?? ''}: ${message}`),
    ...(unknownColumns.length === 0 ? [] : ['', `Columns that no rule reads: ${unknownColumns.join(', ')}`]),
    '',
    caution,
    '',
  ];
  return lines.join('\n');
}

function skippedRows({ skipped = [] }: CalloutsResult): number {
  return new Set(skipped.map(({ row }) => row)).size;
}

function rowLines({ id, row, decision, findings, computed }: CalloutRow): string[] {
  return [
    `${id} (line ${row}, ${computed.thread}): ${decision}`,
    ...findings.flatMap(({ severity, rule, message, source }) => [
      `  ${severity} ${rule}: ${message}`,
      `    ${sourceText(source)}`,
    ]),
  ];
}
