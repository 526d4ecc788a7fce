/** Callouts judged by the headless command's own way in: rows of cells written as CSV. */
import type { CalloutRow } from '../../../shared-types/callout.ts';
import type { Severity } from '../../../shared-types/judged.ts';
import { judgeCallouts } from '../../../renderer/engine/callout/index.ts';

export type Cells = Record<string, string>;

/** A CSV with a column for every name any of the rows has; each cell in quotes. */
export function csvOf(rows: readonly Cells[]): string {
  const names = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  const line = (cells: readonly string[]): string => cells.map((cell) => `"${cell.replaceAll('"', '""')}"`).join(',');
  return `${[line(names), ...rows.map((row) => line(names.map((name) => row[name] ?? '')))].join('\n')}\n`;
}

export function judgedRows(rows: readonly Cells[]): CalloutRow[] {
  const named = rows.map((row, index): Cells => ({ id: `C${index + 1}`, ...row }));
  return judgeCallouts({ content: csvOf(named), skipBad: false }).rows;
}

export function judged(row: Cells): CalloutRow {
  const [only] = judgedRows([row]);
  if (only === undefined) throw new Error('no row came back');
  return only;
}

/** The severities with which a rule fired on a row. */
export function fired(row: CalloutRow, rule: string): Severity[] {
  return row.findings.filter((finding) => finding.rule === rule).map(({ severity }) => severity);
}
