/** What Undo and Redo would do next: derived from the journal's entries, so that it outlives the window. */
import type { EntryHead, JournalEntry } from '../../../shared-types/journal.ts';
import { recentMost } from '../../../shared-types/journal.ts';
import type { HistoryState } from '../store.ts';

export const noHistory: HistoryState = { undo: null, redo: null, recent: [] };

/**
 * An undo takes the entry it turned round off the one pile and lies on the other; a redo goes the other way. Anything
 * else that can be undone ends what could have been done again. What cannot be undone leaves both as they are.
 */
export function historyOf(heads: readonly EntryHead[]): HistoryState {
  const done: EntryHead[] = [];
  const undone: EntryHead[] = [];
  for (const head of heads) {
    if (head.action === 'undo') {
      take(done, head.of);
      undone.push(head);
    } else if (head.action === 'redo') {
      take(undone, head.of);
      done.push(head);
    } else if (head.undoable) {
      done.push(head);
      undone.length = 0;
    }
  }
  return { undo: done.at(-1) ?? null, redo: undone.at(-1) ?? null, recent: heads.slice(-recentMost).toReversed() };
}

/** Takes it away where it lies on top; an entry older than the heads at hand lies on neither pile. */
function take(pile: EntryHead[], seq: number | undefined): void {
  if (pile.at(-1)?.seq === seq) pile.pop();
}

type Headed = Pick<JournalEntry, 'seq' | 'utc' | 'tzOffset' | 'user' | 'action' | 'payload'>;

/** Of an entry, what history shows. */
export function headOf(entry: Headed, before: EntryHead | undefined): EntryHead {
  const { seq, utc, tzOffset, user, action, payload } = entry;
  const { title, key, undoable, of } = payload;
  return {
    seq,
    utc,
    tzOffset,
    user,
    action,
    title,
    key,
    undoable,
    ...(of === undefined ? {} : { of }),
    clockWentBack: before !== undefined && Date.parse(utc) < Date.parse(before.utc),
  };
}
