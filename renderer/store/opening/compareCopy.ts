/** Journal against working copy, before anything is shown. */
import type { JournalState } from '../../../shared-types/journal.ts';
import type { Counts, TableName } from '../../../shared-types/records/index.ts';
import { tableNames } from '../../../shared-types/records/index.ts';
import { tableWords } from '../recordNames.ts';
import type { CopyTally } from '../copy/workingCopy.ts';

export type Verdict =
  /** The copy holds what the journal says. */
  | { kind: 'same' }
  /** Both are at their beginning, and the copy does not say so yet. */
  | { kind: 'fresh' }
  /** The copy has not come as far. Whether the journal goes on from there is still to be seen. */
  | { kind: 'behind' }
  /** The copy has come further than the journal, or the journal is empty and the copy is not. */
  | { kind: 'ahead' }
  | { kind: 'differs'; reason: string };

/** Other windows may write while this one compares: so often it looks again before it believes that the copy is ahead. */
export const looks = 4;

export const emptyCounts = (): Counts => Object.fromEntries(tableNames.map((name) => [name, 0])) as Counts;

export function totalOf(counts: Counts): number {
  return tableNames.reduce((sum, name) => sum + counts[name], 0);
}

export function compareCopy(
  { seq, hash, counts }: Pick<JournalState, 'seq' | 'hash' | 'counts'>,
  { meta, counts: found }: CopyTally,
): Verdict {
  if (meta === 'damaged') return { kind: 'differs', reason: 'What the working copy says of itself cannot be read.' };
  if (meta === null) {
    if (seq === 0) return totalOf(found) === 0 ? { kind: 'fresh' } : { kind: 'ahead' };
    return { kind: 'differs', reason: 'The working copy is empty: it does not say how far it had come.' };
  }
  if (meta.seq > seq) return { kind: 'ahead' };
  if (meta.seq < seq) return { kind: 'behind' };
  if (meta.hash !== hash)
    return {
      kind: 'differs',
      reason: `Entry ${seq} of the journal is not the one that the working copy was made from.`,
    };
  return compareCounts(counts, found);
}

export function compareCounts(counts: Counts, found: Counts): Verdict {
  const apart = tableNames.filter((name) => counts[name] !== found[name]);
  if (apart.length === 0) return { kind: 'same' };
  const said = apart.map(
    (name) => `${found[name]} ${wordFor(name, found[name])} where the journal has ${counts[name]}`,
  );
  return { kind: 'differs', reason: `The working copy holds ${said.join(', ')}.` };
}

function wordFor(name: TableName, count: number): string {
  return count === 1 ? tableWords[name].one : tableWords[name].many;
}
