import type { CalloutRow, CalloutsResult, PublishedBand, PublishedLocking } from '../../../shared-types/callout.ts';
import type { Refusal } from '../../../shared-types/errors.ts';
import { cautionLead, cautionShort } from '../caution.ts';
import { RefusedError } from '../errors.ts';
import { delimiterNames } from '../sheet/delimiter.ts';
import type { Callout } from './callout.ts';
import { printedLocking, type ComparedBand } from './heldFacts.ts';
import { judgeCallout } from './judgeCallout.ts';
import { openCallouts, type OpenCallouts } from './readCallouts.ts';

/** As many refusals as are told; a file with more is another file. */
const refusalsMost = 100_000;

export interface AskedCallouts {
  content: Uint8Array | string;
  file?: string;
  skipBad: boolean;
}

/**
 * Every callout of a CSV file judged.
 *
 * @param given.content - the file's bytes, or its text
 * @param given.file - its name, for refusals
 * @param given.skipBad - whether rows that cannot be read are passed over and listed, rather than refusing the file
 * @returns one row for each callout in the file's order, and the counts
 * @throws RefusedError as readTable does; where rows cannot be read, with every one of them in `rows`
 */
export function judgeCallouts(given: AskedCallouts): CalloutsResult {
  const judging = judgedOneByOne(given);
  const rows: CalloutRow[] = [];
  for (;;) {
    const next = judging.next();
    if (next.done === true) return { rows, ...next.value };
    rows.push(next.value);
  }
}

/**
 * The same, one row after another, so that none need be held: what is refused is told at the end, when all is read.
 *
 * @returns what stands beside the rows
 * @throws RefusedError as judgeCallouts does
 */
export function* judgedOneByOne(given: AskedCallouts): Generator<CalloutRow, Omit<CalloutsResult, 'rows'>> {
  const opened = openCallouts(given);
  const summary = { conforming: 0, nonconforming: 0, indeterminate: 0 };
  const published = new Published();
  const repeated = new Repeated();
  let read = 0;
  for (const callout of opened.callouts()) {
    read += 1;
    // Nothing is answered of a file that is refused.
    if (!given.skipBad && opened.isRefused()) continue;
    const row = judgeCallout(callout);
    repeated.note(row);
    published.add(callout);
    summary[row.decision] += 1;
    yield row;
  }
  const refusals = opened.refusals();
  if (!given.skipBad) refuseBad(refusals);
  return {
    summary,
    ...(given.skipBad ? { skipped: refusals.slice(0, refusalsMost) } : {}),
    ...besideRows(opened, read + new Set(refusals.map(({ row }) => row)).size),
    published: published.inOrder(),
    caution: `${cautionLead} ${cautionShort}`,
  };
}

function besideRows({ table }: OpenCallouts, rows: number): Pick<CalloutsResult, 'unknownColumns' | 'read'> {
  const { encoding, delimiter, notes } = table;
  return {
    unknownColumns: table.unknownColumns.map(({ name }) => name),
    read: { encoding, delimiter: delimiterNames[delimiter], rows, notes },
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

/** What was recorded against an id is recorded against one callout: a second of the same name is told. */
class Repeated {
  private readonly lines = new Map<string, number>();

  note({ id, row, findings }: CalloutRow): void {
    const before = this.lines.get(id);
    if (before === undefined) {
      this.lines.set(id, row);
      return;
    }
    findings.push({
      rule: 'repeated-id',
      severity: 'note',
      message: `Line ${before} has the same id: what is recorded of it cannot be told apart.`,
      source: 'Rule of this program.',
    });
  }
}

/** What the documents print for the threads met, once for each. */
class Published {
  private readonly bands = new Map<string, PublishedBand[]>();
  private readonly locking = new Map<string, PublishedLocking[]>();

  add({ thread, lubrication, locking }: Callout): void {
    const { of, bands } = thread.bands(lubrication);
    if (!this.bands.has(of)) this.bands.set(of, bands.map(printedBand));
    if (locking === null) return;
    const { designation } = thread.thread;
    if (!this.locking.has(designation)) this.locking.set(designation, thread.lockingOfAll().map(printedLocking));
  }

  inOrder(): CalloutsResult['published'] {
    return { bands: Object.fromEntries(this.bands), locking: Object.fromEntries(this.locking) };
  }
}

function printedBand({ source, condition, minNm, maxNm, matched }: ComparedBand): PublishedBand {
  return { document: source.number, table: source.table, condition, minNm, maxNm, matched };
}
