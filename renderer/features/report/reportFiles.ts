import { safeFileName } from '../../../shared-types/fileName.ts';
import type { FileToSave } from '../../../shared-types/host.ts';
import { cautionLead, cautionText } from '../../engine/caution.ts';
import { csvText, exactCsvText } from '../../engine/sheet/csvText.ts';
import { workbookBytes } from '../../engine/sheet/xlsx/index.ts';
import { acceptanceIn, howJudged, openFindings, type Report } from './report.ts';
import { sourceLine } from './sourceList.ts';

/** `csv` is harmless in a spreadsheet, `exact-csv` is read back to the last sign. */
export type ReportForm = 'csv' | 'exact-csv' | 'xlsx' | 'json';

const fields = [
  ...['id', 'said', 'decision', 'severity', 'rule', 'message', 'value', 'limit', 'unit', 'source'],
  ...['acceptedBy', 'acceptedAt', 'acceptedBecause', 'computed', 'assumptions'],
] as const;

type Cell = string | number | null;

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

const kinds = {
  csv: { ending: '.csv', mediaType: 'text/csv' },
  'exact-csv': { ending: '_exact.csv', mediaType: 'text/csv' },
  xlsx: { ending: '.xlsx', mediaType: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet' },
  json: { ending: '.json', mediaType: 'application/json' },
} as const satisfies Record<ReportForm, Pick<FileToSave, 'mediaType'> & { ending: string }>;

/** The report's own name for its files, without an ending. */
export function reportName({ heading }: Report, dataTime: string): string {
  const subject = heading.subject === 'callouts' ? 'callouts' : 'as-run';
  return safeFileName(`${subject}_${heading.name.slice(0, 80)}_${dataTime.slice(0, 10)}`, `${subject}_report`);
}

/** The report as a file of one of its forms. */
export function reportFile(
  report: Report,
  form: ReportForm,
  x: { dataTime: string; appVersion: string; hash: string },
): FileToSave {
  const { ending, mediaType } = kinds[form];
  const text = (written: string): Uint8Array => new TextEncoder().encode(written);
  const bytes =
    form === 'json'
      ? text(reportJson(report, x))
      : form === 'xlsx'
        ? workbookBytes(fields, reportTable(report), 'Findings')
        : text(`\uFEFF${(form === 'csv' ? csvText : exactCsvText)(fields, reportTable(report))}`);
  return { name: safeFileName(`${reportName(report, x.dataTime)}${ending}`), mediaType, bytes };
}
