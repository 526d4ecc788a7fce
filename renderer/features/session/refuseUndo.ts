import { refusalOf } from '../../store/session.ts';
import type { Session } from '../../store/session.ts';
import { ConflictError, NotSavedError } from '../../store/store.ts';

/** Why an undo did not happen, in the words of a refusal. A change not saved is the save state's to tell. */
export function refuseUndo(session: Session, what: 'Undo' | 'Redo', error: unknown): void {
  if (error instanceof NotSavedError) return;
  if (error instanceof ConflictError) {
    const message = 'What it would turn round has been changed since. Nothing was changed.';
    session.refuse(what, { code: 'conflict', message });
    return;
  }
  session.refuse(what, refusalOf(error));
}
