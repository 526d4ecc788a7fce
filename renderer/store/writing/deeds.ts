/**
 * One change from wish to disk: read and compare, append to the journal, write the working copy. Nothing before the last
 * of these counts as saved.
 */
import type { JournalPayload } from '../../../shared-types/journal.ts';
import { preferencesKey } from '../../../shared-types/records/window.ts';
import { PartedError } from '../copy/applyEntries.ts';
import { keepEntry } from '../copy/arrivals.ts';
import { readsOf } from '../copy/copyReads.ts';
import type { Desk } from './desk.ts';
import { bringUp } from './desk.ts';
import { withFollowUps } from './followUps.ts';
import { headOf } from './history.ts';
import { appendSurely, InDoubtError, refusedAs, refusedFor } from './hostCalls.ts';
import { within } from '../noAnswer.ts';
import { prepareAll } from './prepare.ts';
import type { IsRepeated } from './prepare.ts';
import { readCurrent } from '../copy/readCurrent.ts';
import { ConflictError, NotSavedError } from '../store.ts';
import { keepWhole } from '../wholeness/index.ts';
import type { Step } from './watched.ts';
import type { Wish } from './wishes.ts';

export interface Deed {
  /** Made once; by it the journal and this window know the deed again. */
  key: string;
  action: string;
  title: string;
  undoable: boolean;
  of?: number;
  wishes: readonly Wish[];
}

export interface DeedAround {
  desk: Desk;
  /** The right to write, asked for where this window has none. @throws NotSavedError where another window has it */
  mustWrite(limitMs: () => number): Promise<string>;
  limitMs: () => number;
  isRepeated: IsRepeated;
  step: Step;
}

/**
 * @returns the sequence under which it is kept; that of the copy's head where all of it was there already
 * @throws ConflictError, RefusedError, StoppedError: nothing was written. InDoubtError: its cause, see `whyNotSaved`, as of anything else, came
 * after the journal was asked.
 */
export async function perform(deed: Deed, { desk, mustWrite, limitMs, isRepeated, step }: DeedAround): Promise<number> {
  const wishes = withFollowUps(deed.wishes);
  // Others may write between reading and appending, again and again; not for longer than a change may take.
  while (limitMs() > 1) {
    const lease = await mustWrite(limitMs);
    const asked = [...wishes, { table: 'preferences' as const, id: preferencesKey }];
    const { head, current } = await within(readCurrent(desk.copy, asked), limitMs(), 'the working copy');
    if (head === undefined) throw new PartedError('the working copy does not say how far it has come');
    if (desk.doubtful || head.seq !== desk.seen) {
      await bringUp(desk, limitMs);
      const kept = desk.heads.findLast(({ key }) => key === deed.key);
      if (kept !== undefined) return kept.seq;
      continue;
    }
    const { changes, conflicts } = await prepareAll(wishes, current, isRepeated, step);
    if (conflicts.length > 0) throw new ConflictError(conflicts);
    if (changes.length === 0) return head.seq;
    await within(keepWhole(changes, readsOf(desk.copy), deed.action === 'undo'), limitMs(), 'the working copy');
    if (desk.stopped !== null) throw new NotSavedError(desk.stopped);
    // From the next line on it is written, and kept whole.
    step('comparing', 1, 1);
    step('journal', 0, 1);

    const { key, action, title, undoable, of } = deed;
    const payload: JournalPayload = { title, key, undoable, ...(of === undefined ? {} : { of }), changes };
    const person = current.get(`preferences ${preferencesKey}`);
    const user = person !== undefined && 'person' in person ? person.person : '';
    const seq = head.seq + 1;
    try {
      // Until the answer is here, the journal may have it or not.
      desk.doubtful = true;
      const appended = await appendSurely(desk.journal, { lease, seq, user, action, payload }, limitMs);
      // Answered as an earlier time the same was asked: what lies between is not known here.
      if (appended.seq !== seq) continue;
      const tzOffset = 0 - new Date(appended.utc).getTimezoneOffset();
      const headed = { seq, utc: appended.utc, tzOffset, user, action, payload };
      const toApply = { seq, hash: appended.hash, prevHash: head.hash, changes };
      let applied = 0;
      const onPiece = (records: number): void => step('copy', (applied += records), changes.length);
      await within(keepEntry(desk.copy, toApply, onPiece), limitMs(), 'the working copy');
      desk.doubtful = false;
      desk.took([{ head: headOf(headed, desk.heads.at(-1)), changes }]);
      return seq;
    } catch (error) {
      if (!refusedAs(error, 'behind', 'not-writer'))
        throw refusedFor(error) || error instanceof InDoubtError ? error : new InDoubtError('', { cause: error });
      if (refusedAs(error, 'not-writer')) desk.lease = null;
    }
  }
  throw new NotSavedError('other windows keep writing at the same time');
}
