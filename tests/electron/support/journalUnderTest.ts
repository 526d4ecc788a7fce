/** A journal in a folder of the test's own, with a clock that goes a second further at each look. */
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { journalIn, type Journal, type JournalOptions } from '../../../electron/journal/journal.ts';
import { HostRefusal } from '../../../electron/site/refusal.ts';
import type { Appended, AppendRequest, Change } from '../../../shared-types/journal.ts';
import type { Refusal } from '../../../shared-types/errors.ts';
import { request, steadyClock } from './journalParts.ts';
import { scratchFolder } from './site.ts';

export { comes, goes, linesIn, request, segmentPaths, steadyClock } from './journalParts.ts';

export interface UnderTest extends Journal {
  folder: string;
  /** Appends as the window with the right to write would. */
  add(seq: number, more?: Partial<AppendRequest['payload']> & { changes?: Change[] }): Promise<Appended>;
}

export function journalUnderTest(options: Partial<JournalOptions> = {}): UnderTest {
  const folder = options.folder ?? join(scratchFolder(), 'journal');
  const journal = journalIn({ clock: steadyClock(), ...options, folder });
  onTestFinished(() => journal.close());
  return {
    ...journal,
    folder,
    add: (seq, more = {}) => journal.append(request(seq, more), () => true),
  };
}

/** The refusal with which work ends; an outcome of any other kind fails the test. */
export async function refusalOf(work: Promise<unknown>): Promise<Refusal> {
  const outcome: unknown = await work.then(
    () => new Error('it was not refused'),
    (cause: unknown) => cause,
  );
  if (outcome instanceof HostRefusal) return outcome.refusal;
  throw outcome;
}
