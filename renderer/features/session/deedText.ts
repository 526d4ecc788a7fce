import type { EntryHead } from '../../../shared-types/journal.ts';

/** What was done, as history and lists of changes show it: an entry that turns another round has that one's title. */
export function deedText({ action, title }: Pick<EntryHead, 'action' | 'title'>): string {
  if (action === 'undo') return `Undone: ${title}`;
  return action === 'redo' ? `Done again: ${title}` : title;
}
