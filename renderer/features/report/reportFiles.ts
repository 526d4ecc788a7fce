import { safeFileName } from '../../../shared-types/fileName.ts';
import type { FileToSave } from '../../../shared-types/host.ts';
import { cautionLead, cautionText } from '../../engine/caution.ts';
import { acceptanceIn, howJudged, openFindings, type Report } from './report.ts';
import { sourceLine } from './sourceList.ts';
import { fileOf, tableFile, type Cell, type TableForm } from './tableFile.ts';

const fields = [
  ...['id', 'said', 'decision', 'severity', 'rule', 'message', 'value', 'limit', 'unit', 'source'],
  ...['acceptedBy', 'acceptedAt', 'acceptedBecause', 'computed', 'assumptions'],
] as const;

/** A line for each finding, one for a row without any, one for each cell that could not be read. */
function reportTable(report: Report): Cell[][] {
  const judged = report.rows.flatMap((row): Cell[][] => {
    const of = [row.id, row.said.join('; '), row.decision];
    const behind = [row.computed.join('; '), row.assumptions.join('; ')];
    if (row.findings.length === 0) return [[...of, ...Array<null>(10).fill(null), ...behind]];
    return row.findings.map((finding) => {
      const accepted = acceptanceIn(row, finding);
      const { severity, rule, message, value = null, limit = null, unit = null } = finding;
      const source = sourceLine(finding.source);
      const by = [accepted?.person ?? null, accepted?.at ?? null, accepted?.reason ?? null];
      return [...of, severity, rule, message, value, limit, unit, source, ...by, ...behind];
    });
  });
  const unread = report.unreadable.map(({ row, message, value }): Cell[] => [
    ...[`row ${row ?? ''}`, value === undefined ? null : String(value), 'not read', null, null, message],
    ...Array<null>(9).fill(null),
  ]);
  return [...judged, ...unread];
}

/** The report for programs: all of it, with what it rests on. */
function reportJson(report: Report, x: { dataTime: string; appVersion: string; hash: string }): string {
  const rows = report.rows.map((row) => ({
    ...{ id: row.id, said: row.said, decision: row.decision, open: openFindings(row) },
    findings: row.findings.map((finding) => ({ ...finding, accepted: acceptanceIn(row, finding) })),
    ...{ computed: row.computed, assumptions: row.assumptions },
  }));
  const { heading, summary, unreadable, unknownColumns, notes } = report;
  return `${JSON.stringify({ ...x, heading, summary, rows, unreadable, unknownColumns, howJudged: [...howJudged, ...notes], caution: `${cautionLead} ${cautionText}` }, null, 2)}\n`;
}

/** The report's own name for its files, without an ending. */
export function reportName({ heading }: Report, dataTime: string): string {
  const subject = heading.subject === 'both' ? 'findings' : heading.subject;
  return safeFileName(`${subject}_${heading.name.slice(0, 80)}_${dataTime.slice(0, 10)}`, `${subject}_report`);
}

/** The report as a file of one of the forms. */
export function reportFile(
  report: Report,
  form: TableForm,
  x: { dataTime: string; appVersion: string; hash: string },
): FileToSave {
  const name = reportName(report, x.dataTime);
  if (form === 'json') return fileOf(name, form, reportJson(report, x));
  return tableFile({ name, form, columns: fields, rows: reportTable(report) });
}
