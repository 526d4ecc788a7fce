import type { CalloutRow, CalloutsResult, PublishedBand, PublishedLocking } from '../../../shared-types/callout.ts';
import { delimiterNames } from '../sheet/delimiter.ts';
import type { Share } from '../sheet/index.ts';
import type { Callout } from './callout.ts';
import { printedBand, printedLocking } from './heldFacts.ts';
import { judgeCallout } from './judgeCallout.ts';
import { openCallouts } from './readCallouts.ts';
import { besideRows, type JudgedShare } from './shares.ts';

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
  const judging = judgedShare(given);
  const rows: CalloutRow[] = [];
  for (;;) {
    const next = judging.next();
    if (next.done === true) return { rows, ...besideRows([next.value], given.skipBad) };
    rows.push(next.value);
  }
}

/**
 * One share of the rows, judged by itself: ids that stand in another share too are not told apart.
 *
 * @returns what its rows come to
 * @throws RefusedError as readTable does
 */
export function* judgedShare(given: AskedCallouts & { share?: Share }): Generator<CalloutRow, JudgedShare> {
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
  const { encoding, delimiter, notes, unknownColumns } = opened.table;
  const rows = read + new Set(refusals.map(({ row }) => row)).size;
  return {
    ...{ summary, published: published.inOrder(), refusals, ids: repeated.ids() },
    unknownColumns: unknownColumns.map(({ name }) => name),
    read: { encoding, delimiter: delimiterNames[delimiter], rows, notes },
  };
}

/** What was recorded against an id is recorded against one callout: a second of the same name is told. */
class Repeated {
  private readonly lines = new Map<string, number>();

  ids(): string[] {
    return [...this.lines.keys()];
  }

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
