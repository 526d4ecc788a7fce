/** From wishes and what is kept now to the changes of one entry. Nothing is read or written here. */
import type { Change } from '../../../shared-types/journal.ts';
import type { AnyRecord } from '../../../shared-types/records/index.ts';
import { breaths } from '../breathe.ts';
import { canonicalJson } from '../../../shared-types/canonicalJson.ts';
import { inPieces } from '../inPieces.ts';
import type { Conflict } from '../store.ts';
import type { Step } from './watched.ts';
import type { Wish } from './wishes.ts';

export interface Prepared {
  changes: Change[];
  conflicts: Conflict[];
}

/** Whether the very same wish was kept before, and its answer lost. */
export type IsRepeated = (wish: Wish) => boolean;

export type CurrentRecords = ReadonlyMap<string, AnyRecord>;

export const recordKey = ({ table, id }: Pick<Wish, 'table' | 'id'>): string => `${table} ${id}`;

function prepare(wishes: readonly Wish[], current: CurrentRecords, isRepeated: IsRepeated): Prepared {
  const changes: Change[] = [];
  const conflicts: Conflict[] = [];
  for (const wish of wishes) {
    const { table, id, after } = wish;
    const kept = current.get(recordKey(wish)) ?? null;
    // Two that count one up from the same number mean two, though they write the same: equal content excuses nobody.
    const isThere = sameContent(kept, after);
    if (!madeFromKept(wish, kept) && kept !== after && !(isThere && isRepeated(wish))) {
      conflicts.push({ table, id, mine: after, kept });
      continue;
    }
    if (isThere) continue;
    const rev = Math.max(kept?.rev ?? 0, wish.pastRev) + 1;
    changes.push({ table, id, before: kept, after: after === null ? null : { ...after, rev } });
  }
  return { changes, conflicts };
}

/** The same for many, with a breath in between. */
export async function prepareAll(
  wishes: readonly Wish[],
  current: CurrentRecords,
  isRepeated: IsRepeated,
  step: Step = () => undefined,
): Promise<Prepared> {
  const all: Prepared = { changes: [], conflicts: [] };
  const breath = breaths();
  for (const piece of inPieces(wishes, 100)) {
    const pause = breath();
    if (pause !== null) {
      await pause;
      step('comparing', all.changes.length, wishes.length);
    }
    const { changes, conflicts } = prepare(piece, current, isRepeated);
    for (const change of changes) all.changes.push(change);
    for (const conflict of conflicts) all.conflicts.push(conflict);
  }
  return all;
}

function madeFromKept({ from }: Wish, kept: AnyRecord | null): boolean {
  if (from === 'whatever') return true;
  if ('content' in from) return sameContent(from.content, kept);
  return from.rev === (kept?.rev ?? 0);
}

/** The same but for the revision. */
function sameContent(one: AnyRecord | null, other: AnyRecord | null): boolean {
  if (one === null || other === null) return one === other;
  return one === other || contentText(one) === contentText(other);
}

function contentText(record: AnyRecord): string {
  return canonicalJson({ ...record, rev: 0 });
}
