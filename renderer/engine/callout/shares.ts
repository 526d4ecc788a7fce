import type { CalloutsResult } from '../../../shared-types/callout.ts';
import type { Refusal } from '../../../shared-types/errors.ts';
import { cautionLead, cautionShort } from '../caution.ts';
import { RefusedError } from '../errors.ts';
import { rowsMost } from '../sheet/index.ts';

/** As many refusals as are told; a file with more is another file. */
const refusalsMost = 100_000;

/** What one share of a file's rows comes to, beside the rows. */
export interface JudgedShare {
  summary: CalloutsResult['summary'];
  published: CalloutsResult['published'];
  /** What cannot be read, in the order of the lines. */
  refusals: Refusal[];
  /** The ids judged. */
  ids: string[];
  unknownColumns: string[];
  read: CalloutsResult['read'];
}

/**
 * Whether shares judged apart come to what the whole file does: not where an id stands in two of them, or the file has too many rows.
 *
 * @param shares - every one of a file, in its order
 */
export function areWhole(shares: readonly JudgedShare[]): boolean {
  const ids = new Set<string>();
  for (const share of shares) {
    if (share.ids.some((id) => ids.has(id))) return false;
    for (const id of share.ids) ids.add(id);
  }
  return sumOf(shares, ({ read }) => read.rows) <= rowsMost;
}

/**
 * What stands beside the rows of a file, from all its shares in their order.
 *
 * @param skipBad - whether rows that cannot be read are passed over and listed
 * @throws RefusedError the first field that cannot be read, unless `skipBad`, with all of them in `rows`
 */
export function besideRows(shares: readonly JudgedShare[], skipBad: boolean): Omit<CalloutsResult, 'rows'> {
  const [first] = shares;
  if (first === undefined) throw new Error('a file has one share at least');
  const refusals = shares.flatMap((share) => share.refusals);
  if (!skipBad) refuseBad(refusals);
  return {
    summary: {
      conforming: sumOf(shares, ({ summary }) => summary.conforming),
      nonconforming: sumOf(shares, ({ summary }) => summary.nonconforming),
      indeterminate: sumOf(shares, ({ summary }) => summary.indeterminate),
    },
    ...(skipBad ? { skipped: refusals.slice(0, refusalsMost) } : {}),
    unknownColumns: first.unknownColumns,
    read: { ...first.read, rows: sumOf(shares, ({ read }) => read.rows) },
    published: {
      bands: together(shares.map(({ published }) => published.bands)),
      locking: together(shares.map(({ published }) => published.locking)),
    },
    caution: `${cautionLead} ${cautionShort}`,
  };
}

function sumOf(shares: readonly JudgedShare[], count: (share: JudgedShare) => number): number {
  return shares.reduce((sum, share) => sum + count(share), 0);
}

/** By their keys, in the order they are met. */
function together<T>(records: readonly Record<string, T>[]): Record<string, T> {
  return Object.fromEntries(records.flatMap((record) => Object.entries(record)));
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
