import type { ReopenedBy } from '../../../shared-types/asRun.ts';
import type { AsRunRecord, Found } from './record.ts';
import type { Day, TrackedTool } from './tools.ts';

const source =
  'A value is as good as the tool that gave it: every value of a tool found out of calibration is open since the last day the tool is known to have been right (common practice, no source).';

/**
 * `tool-found-out`: a value of a tool that was found out of calibration. `tool-overdue`: one recorded after the tool's calibration had
 * run out. `tool-not-traced`: no serial, or one the list does not have. All of it only where a list of tools is given.
 *
 * @returns each tool found out, with the rows it re-opens
 */
export function traceTools(
  records: readonly AsRunRecord[],
  tools: ReadonlyMap<string, TrackedTool>,
  found: Found,
): ReopenedBy[] {
  const reopened = new Map<string, string[]>();
  for (const record of records) {
    const tool = record.serial === null ? undefined : tools.get(record.serial);
    if (tool === undefined) notTraced(record, found);
    else {
      overdue(record, tool, found);
      if (isReopened(record, tool, found)) reopened.set(tool.serial, [...(reopened.get(tool.serial) ?? []), record.id]);
    }
  }
  return [...tools.values()].flatMap(({ serial, foundOut, lastGood }) =>
    foundOut === null
      ? []
      : [{ serial, lastGood: lastGood?.text ?? null, foundOut: foundOut.text, rows: reopened.get(serial) ?? [] }],
  );
}

function notTraced(record: AsRunRecord, found: Found): void {
  const { serial } = record;
  found(record, {
    rule: 'tool-not-traced',
    severity: 'query',
    message:
      serial === null
        ? 'No serial is recorded: which tool gave the value cannot be told.'
        : `The list of tools does not have serial ${serial}: whether it was in calibration cannot be told.`,
    source,
  });
}

function overdue(record: AsRunRecord, { serial, calibrationDue }: TrackedTool, found: Found): void {
  if (calibrationDue === null) return;
  const isLate = isAfter(record, calibrationDue);
  if (isLate === false) return;
  const due = `the calibration of tool ${serial} held until ${calibrationDue.text}`;
  found(record, {
    rule: 'tool-overdue',
    severity: 'query',
    message:
      isLate === true
        ? `Recorded ${record.time?.text}; ${due}.`
        : `The row has no day that can be read, and ${due}: whether it still held cannot be told.`,
    source,
  });
}

/** A value whose day is not known cannot be left out. */
function isReopened(record: AsRunRecord, { serial, foundOut, lastGood }: TrackedTool, found: Found): boolean {
  if (foundOut === null || (lastGood !== null && isAfter(record, lastGood) === false)) return false;
  const since =
    lastGood === null ? 'no day is known on which it was right' : `it was last known to be right ${lastGood.text}`;
  found(record, {
    rule: 'tool-found-out',
    severity: 'query',
    message: `Tool ${serial} was found out of calibration ${foundOut.text}, and ${since}: the value is open again.`,
    source,
  });
  return true;
}

/** Whether a record is of a later day; null where its day is not known. */
function isAfter({ time }: AsRunRecord, { moment }: Day): boolean | null {
  const day = time?.moment?.day ?? null;
  return day === null || moment.day === null ? null : day > moment.day;
}
