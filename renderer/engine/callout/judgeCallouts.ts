import type { CalloutRow, CalloutsResult, PublishedBand, PublishedLocking } from '../../../shared-types/callout.ts';
import type { Refusal } from '../../../shared-types/errors.ts';
import type { JudgedSummary } from '../../../shared-types/judged.ts';
import { cautionLead, cautionShort } from '../caution.ts';
import { RefusedError } from '../errors.ts';
import { delimiterNames } from '../sheet/delimiter.ts';
import type { Callout } from './callout.ts';
import { printedLocking } from './computed.ts';
import type { ComparedBand } from './heldFacts.ts';
import { judgeCallout } from './judgeCallout.ts';
import { readCallouts, type ReadCallouts } from './readCallouts.ts';

/** As many refusals as are told; a file with more is another file. */
const refusalsMost = 100_000;

/**
 * Every callout of a CSV file judged.
 *
 * @param given.content - the file's bytes, or its text
 * @param given.file - its name, for refusals
 * @param given.skipBad - whether rows that cannot be read are passed over and listed, rather than refusing the file
 * @returns one row for each callout in the file's order, and the counts
 * @throws RefusedError as readTable does; where rows cannot be read, with every one of them in `rows`
 */
export function judgeCallouts(given: {
  content: Uint8Array | string;
  file?: string;
  skipBad: boolean;
}): CalloutsResult {
  const read = readCallouts(given);
  if (!given.skipBad) refuseBad(read.refusals);
  return judgedOf(read, given.skipBad ? read.refusals : null);
}

/** The answer for callouts as read. */
function judgedOf({ callouts, table }: ReadCallouts, skipped: Refusal[] | null): CalloutsResult {
  const rows = callouts.map(judgeCallout);
  noteRepeated(rows);
  return {
    rows,
    summary: summaryOf(rows),
    ...(skipped === null ? {} : { skipped: skipped.slice(0, refusalsMost) }),
    unknownColumns: table.unknownColumns.map(({ name }) => name),
    published: publishedFor(callouts),
    read: {
      encoding: table.encoding,
      delimiter: delimiterNames[table.delimiter],
      rows: table.records.length + table.ragged.length,
      notes: table.notes,
    },
    caution: `${cautionLead} ${cautionShort}`,
  };
}

/**
 * Refuses a file some of whose rows cannot be read.
 *
 * @param refusals - in the order of the lines
 * @throws RefusedError the first of them, with all in `rows`
 */
export function refuseBad(refusals: readonly Refusal[]): void {
  const [first] = refusals;
  if (first === undefined) return;
  throw new RefusedError({ ...first, rows: refusals.slice(0, refusalsMost) });
}

function summaryOf(rows: readonly CalloutRow[]): JudgedSummary {
  const summary: JudgedSummary = { conforming: 0, nonconforming: 0, indeterminate: 0 };
  for (const { decision } of rows) summary[decision] += 1;
  return summary;
}

/** What the documents print for the threads met, once for each. */
function publishedFor(callouts: readonly Callout[]): CalloutsResult['published'] {
  const bands = new Map<string, PublishedBand[]>();
  const locking = new Map<string, PublishedLocking[]>();
  for (const { thread, lubrication, locking: document } of callouts) {
    const asked = thread.bands(lubrication);
    if (!bands.has(asked.of)) bands.set(asked.of, asked.bands.map(printedBand));
    const { designation } = thread.thread;
    if (document !== null && !locking.has(designation))
      locking.set(designation, thread.lockingOfAll().map(printedLocking));
  }
  return { bands: Object.fromEntries(bands), locking: Object.fromEntries(locking) };
}

function printedBand({ source, condition, minNm, maxNm, matched }: ComparedBand): PublishedBand {
  return { document: source.number, table: source.table, condition, minNm, maxNm, matched };
}

/** What was recorded against an id is recorded against one callout: a second of the same name is told. */
function noteRepeated(rows: readonly CalloutRow[]): void {
  const first = new Map<string, number>();
  for (const { id, row, findings } of rows) {
    const before = first.get(id);
    if (before === undefined) {
      first.set(id, row);
      continue;
    }
    findings.push({
      rule: 'repeated-id',
      severity: 'note',
      message: `Line ${before} has the same id: what is recorded of it cannot be told apart.`,
      source: 'Rule of this program.',
    });
  }
}
