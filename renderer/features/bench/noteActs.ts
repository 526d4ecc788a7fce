import type { BenchNote } from '../../../shared-types/records/note.ts';
import type { Act } from '../../store/store.ts';

export function keepNote(note: BenchNote): Act {
  return { action: 'keep-note', title: `Keep ${note.name}`, proposals: [{ table: 'notes', put: note }] };
}

export function removeNote({ id, rev, name }: BenchNote): Act {
  return { action: 'remove-note', title: `Remove ${name}`, proposals: [{ table: 'notes', remove: { id, rev } }] };
}

/** Of one task, the newest first; of all where none is at hand. */
export function notesOf(notes: Iterable<BenchNote>, task: string | null): BenchNote[] {
  return [...notes]
    .filter((note) => task === null || note.task === task)
    .toSorted((a, b) => (a.keptAt < b.keptAt ? 1 : a.keptAt > b.keptAt ? -1 : 0));
}
