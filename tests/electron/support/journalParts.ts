/** What journals of tests are made of and looked at with; nothing of it needs a test runner. */
import { randomUUID } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { AppendRequest, Change } from '../../../shared-types/journal.ts';

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
