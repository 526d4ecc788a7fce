import type { CalloutRow, CalloutsResult } from '../../../shared-types/callout.ts';
import type { Finding, FindingSource } from '../../../shared-types/judged.ts';
import { csvText } from '../sheet/index.ts';

const fields = ['id', 'decision', 'rule', 'severity', 'message', 'value', 'limit', 'unit', 'source'] as const;

/**
 * The judged callouts as CSV: a line for each finding, one for a callout without any, one for each row passed over; what no rule reads
 * stands behind, as the file has it. Texts that a spreadsheet would run are made harmless.
 */
export function calloutsCsv(result: CalloutsResult): string {
  const { unknownColumns } = result;
  const kept = ({ otherColumns }: CalloutRow) => unknownColumns.map((name) => otherColumns?.[name] ?? null);
  const lines = result.rows.flatMap((row) =>
    row.findings.length === 0
      ? [[row.id, row.decision, ...fields.slice(2).map(() => null), ...kept(row)]]
      : row.findings.map((finding) => [row.id, row.decision, ...findingCells(finding), ...kept(row)]),
  );
  const skipped = (result.skipped ?? []).map(({ row, message }) => [
    `line ${row ?? ''}`,
    'skipped',
    null,
    null,
    message,
    ...fields.slice(5).map(() => null),
    ...unknownColumns.map(() => null),
  ]);
  return csvText([...fields, ...unknownColumns.map((name) => otherName(name))], [...lines, ...skipped]);
}

/** A column of the file that is called as one of the answer's own keeps apart from it. */
function otherName(name: string): string {
  return fields.some((field) => field === name.trim().toLowerCase()) ? `${name} (as given)` : name;
}

function findingCells({ rule, severity, message, value, limit, unit, source }: Finding): (string | number | null)[] {
  return [rule, severity, message, value ?? null, limit ?? null, unit ?? null, sourceText(source)];
}

/** A source in one line. */
export function sourceText(source: FindingSource): string {
  if (typeof source === 'string') return source;
  const { number, title, edition, table, obtained } = source;
  return `${number}, ${title}, ${edition}, ${table} (${obtained})`;
}
