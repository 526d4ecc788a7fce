/** A journal with shelves, apart from any test runner. */
import { join } from 'node:path';
import { journalIn, type Journal, type JournalOptions } from '../../../electron/journal/journal.ts';
import { HostRefusal } from '../../../electron/site/refusal.ts';
import type { Appended, Change } from '../../../shared-types/journal.ts';
import type { Refusal } from '../../../shared-types/errors.ts';
import { request, steadyClock } from '../../electron/support/journalParts.ts';

export const always = (): boolean => true;

export interface ShelfJournal extends Journal {
  folder: string;
  /** Appends the entry of that number, with one new shelf unless told. */
  add(seq: number, changes?: Change[]): Promise<Appended>;
}

/** @param within - a folder of the trial's own */
export function shelfJournal(within: string, options: Partial<JournalOptions> = {}): ShelfJournal {
  const folder = options.folder ?? join(within, 'journal');
  const journal = journalIn({ clock: steadyClock(), ...options, folder });
  return {
    ...journal,
    folder,
    add: (seq, changes) => journal.append(request(seq, changes === undefined ? {} : { changes }), always),
  };
}

/** The refusal with which work ends; null where it did not end with one. */
export async function refusalIn(work: Promise<unknown>): Promise<Refusal | null> {
  try {
    await work;
    return null;
  } catch (cause) {
    if (cause instanceof HostRefusal) return cause.refusal;
    throw cause;
  }
}
