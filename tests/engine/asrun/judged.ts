/** As-run records and callouts as tests write them, judged. */
import { judgeAsRun } from '../../../renderer/engine/asrun/index.ts';
import { drawsOf } from '../../../renderer/engine/chance/draws.ts';
import type { AsRunResult } from '../../../shared-types/asRun.ts';
import type { Severity } from '../../../shared-types/judged.ts';

export type Cells = Record<string, string | number>;

/** A table of these rows, with every column that any of them has. */
export function csvOf(rows: readonly Cells[]): string {
  const columns = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  const cell = (value: string | number | undefined): string => `"${String(value ?? '').replaceAll('"', '""')}"`;
  return [columns.join(','), ...rows.map((row) => columns.map((column) => cell(row[column])).join(','))].join('\n');
}

/** A callout of 50 to 58 N·m that has running torque in it, with what a test changes. */
export function calloutOf(changes: Cells = {}): Cells {
  return { id: 'C', thread: 'M10', torqueMin: '50 N·m', torqueMax: '58 N·m', runningIncluded: 'yes', ...changes };
}

/** A record of it that keeps to it. */
export function recordOf(changes: Cells = {}): Cells {
  return { callout: 'C', position: 1, cycle: 1, final: '54 N·m', ...changes };
}

export function judgedOf(
  callouts: readonly Cells[],
  records: readonly Cells[],
  more: { tools?: readonly Cells[]; skipBad?: boolean } = {},
): AsRunResult {
  return judgeAsRun({
    asRun: { content: csvOf(records), file: 'asrun.csv' },
    callouts: { content: csvOf(callouts), file: 'callouts.csv' },
    ...(more.tools === undefined ? {} : { tools: { content: csvOf(more.tools), file: 'tools.csv' } }),
    skipBad: more.skipBad ?? false,
  });
}

/** Rules with their severity, row by row. */
export function rulesOf({ rows }: AsRunResult): [rule: string, severity: Severity][][] {
  return rows.map(({ findings }) => findings.map(({ rule, severity }) => [rule, severity]));
}

/** Numbers of a seed between bounds. */
export function between(seed: number): (least: number, most: number) => number {
  const { uniform } = drawsOf(seed);
  return (least, most) => least + (most - least) * uniform();
}
