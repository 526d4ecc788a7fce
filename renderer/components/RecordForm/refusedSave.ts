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
