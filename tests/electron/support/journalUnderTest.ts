/** A journal in a folder of the test's own, with a clock that goes a second further at each look. */
import { randomUUID } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import { journalIn, type Journal, type JournalOptions } from '../../../electron/journal/journal.ts';
import { HostRefusal } from '../../../electron/site/refusal.ts';
import type { AppendRequest, Appended, Change } from '../../../shared-types/journal.ts';
import type { Refusal } from '../../../shared-types/errors.ts';
import { scratchFolder } from './site.ts';

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

export function steadyClock(startMs = Date.UTC(2031, 3, 5, 10, 20, 30)): () => { utc: string; tzOffset: number } {
  let ms = startMs;
  return () => {
    ms += 1_000;
    return { utc: new Date(ms).toISOString(), tzOffset: 60 };
  };
}

export function request(seq: number, more: Partial<AppendRequest['payload']> = {}): AppendRequest {
  return {
    lease: 'ab'.repeat(16),
    seq,
    user: 'A. Example',
    action: 'edit',
    payload: { title: `Add shelf ${seq}`, key: randomUUID(), undoable: true, changes: [comes(`s${seq}`)], ...more },
  };
}

export function comes(id: string, name = `Store ${id}`): Change {
  return { table: 'shelves', id, before: null, after: { id, rev: 1, name } };
}

export function goes(id: string): Change {
  return { table: 'shelves', id, before: { id, rev: 1, name: `Store ${id}` }, after: null };
}

/** The files of entries, in order. */
export function segmentPaths(folder: string, entries = 'entries-1'): string[] {
  return readdirSync(join(folder, entries))
    .filter((name) => name.endsWith('.jsonl'))
    .toSorted()
    .map((name) => join(folder, entries, name));
}

export function linesIn(folder: string, entries = 'entries-1'): string[] {
  const text = segmentPaths(folder, entries)
    .map((path) => readFileSync(path, 'utf8'))
    .join('');
  return text.split('\n').slice(0, -1);
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
