import type { Draft } from './draft.ts';
import { draftsOnDisk, putOnDisk, takeOffDisk, type DraftOnDisk } from './draftsOnDisk.ts';

/** Entries that were not saved yet outlive a crash of the page and a walk to another sheet. They are no record. */
const prefix = 'bagwright-draft:';

export interface KeptDraft {
  draft: Draft;
  /** ISO 8601. */
  at: string;
}

export function keepDraft(name: string, kept: KeptDraft | null): void {
  try {
    if (kept === null && localStorage.getItem(prefix + name) === null) return;
    const text = kept === null ? null : JSON.stringify(kept);
    if (text === null) localStorage.removeItem(prefix + name);
    else localStorage.setItem(prefix + name, text);
    const at = kept?.at ?? new Date().toISOString();
    putOnDisk({ name, text, at }).catch(() => undefined);
  } catch {
    // Without room for it the form still holds its entries.
  }
}

export function keptDraft(name: string): KeptDraft | null {
  try {
    return readDraft(localStorage.getItem(prefix + name));
  } catch {
    return null;
  }
}

/** Of how many forms entries are kept that were not saved. */
export function draftsKept(): number {
  try {
    return Object.keys(localStorage).filter((name) => name.startsWith(prefix)).length;
  } catch {
    return 0;
  }
}

function readDraft(text: string | null): KeptDraft | null {
  const read: unknown = JSON.parse(text ?? 'null');
  if (typeof read !== 'object' || read === null || !('draft' in read) || !('at' in read)) return null;
  const { draft, at } = read;
  if (typeof draft !== 'object' || draft === null || Array.isArray(draft) || typeof at !== 'string') return null;
  return { draft: { ...draft }, at };
}

/** So long the start waits for them; what comes later comes at the next one. */
const backWithinMs = 1000;

/** Before any form is shown: what a crash kept the browser's plain storage from taking to the disk. */
export async function bringDraftsBack(): Promise<void> {
  const inTime = new Promise<DraftOnDisk[]>((resolve) => setTimeout(() => resolve([]), backWithinMs));
  const found = await Promise.race([draftsOnDisk(), inTime]).catch(() => []);
  for (const draft of found) bringBack(draft);
}

function bringBack({ name, text, at }: DraftOnDisk): void {
  try {
    const here = keptDraft(name);
    const isNewer = here === null || here.at < at;
    if (text === null) {
      if (isNewer) localStorage.removeItem(prefix + name);
      // Once it is gone here too, nothing has to say so any more.
      void takeOffDisk(name).catch(() => undefined);
    } else if (isNewer) localStorage.setItem(prefix + name, text);
  } catch {
    // As above.
  }
}
