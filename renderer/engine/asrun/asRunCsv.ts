import type { AsRunResult, AsRunRow } from '../../../shared-types/asRun.ts';
import { sourceText } from '../callout/calloutsCsv.ts';
import { csvText } from '../sheet/index.ts';

const named = ['callout', 'position', 'cycle', 'pass', 'decision'] as const;
const fields = ['rule', 'severity', 'message', 'value', 'limit', 'unit', 'source'] as const;

/**
 * Judged records as CSV: a line for each finding, one for a record without any, one for each row passed over. Texts that a spreadsheet
 * would run are made harmless; what no rule reads stands behind, as the file has it.
 *
 * @param result - as judgeAsRun gives it
 * @returns the text, lines ended as RFC 4180 has them
 * @throws nothing
 * @source project's own columns
 * @validity numbers in full, in the units of the findings
 * @example a line "C,2,1,,nonconforming,final-outside-callout,reject,…,62,58,N·m,…"
 */
export function asRunCsv({ rows, skipped = [], unknownColumns }: AsRunResult): string {
  const kept = ({ otherColumns }: AsRunRow) => unknownColumns.map((name) => otherColumns?.[name] ?? null);
  const lines = rows.flatMap((row) => {
    const cells = namedCells(row);
    if (row.findings.length === 0) return [[...cells, ...fields.map(() => null), ...kept(row)]];
    return row.findings.map(({ rule, severity, message, value, limit, unit, source }) => [
      ...cells,
      rule,
      severity,
      message,
      value ?? null,
      limit ?? null,
      unit ?? null,
      sourceText(source),
      ...kept(row),
    ]);
  });
  const passedOver = skipped.map(({ file, row, message }) => [
    [file, `line ${row ?? ''}`].filter((part) => part !== undefined).join(', '),
    ...named.slice(1, -1).map(() => null),
    'skipped',
    null,
    null,
    message,
    ...fields.slice(3).map(() => null),
    ...unknownColumns.map(() => null),
  ]);
  return csvText([...named, ...fields, ...unknownColumns.map(otherName)], [...lines, ...passedOver]);
}

/** A column of the file that is called as one of the answer's own keeps apart from it. */
function otherName(name: string): string {
  return [...named, ...fields].some((field) => field === name.trim().toLowerCase()) ? `${name} (as given)` : name;
}

function namedCells({ callout, position, cycle, pass, decision }: AsRunRow): (string | number | null)[] {
  return [callout, position, cycle, pass, decision];
}
