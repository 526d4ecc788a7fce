import type { RecordConflict } from '../ConflictPanel/ConflictPanel.tsx';

/** The conflicts that a refused save carries; null where it was refused for another reason. */
export function conflictsIn(error: unknown): readonly RecordConflict[] | null {
  if (!(error instanceof Error) || error.name !== 'ConflictError' || !('conflicts' in error)) return null;
  return Array.isArray(error.conflicts) ? (error.conflicts as RecordConflict[]) : null;
}

/** Why it was not saved: the store's own words; of anything unforeseen its name too. */
export function reasonOf(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  return error.name === 'NotSavedError' ? error.message : `${error.message} (${error.name})`;
}

/** Whether it may have been written all the same: the answer of what writes it is not there. */
export const isInDoubt = (error: unknown): boolean =>
  typeof error === 'object' && error !== null && 'inDoubt' in error && error.inDoubt === true;

/** What a deed that was not done leaves behind, as far as that is known. */
export const whatRemains = (error: unknown): string =>
  isInDoubt(error)
    ? 'It broke off while it was written: whether it is there is known once this page is loaded again.'
    : 'Everything is as it was before.';
