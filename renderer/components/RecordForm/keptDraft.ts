import type { Draft } from './draft.ts';

/** Entries that were not saved yet outlive a crash of the page and a walk to another sheet. They are no record. */
const prefix = 'bagwright-draft:';

export interface KeptDraft {
  draft: Draft;
  /** ISO 8601. */
  at: string;
}

export function keepDraft(name: string, kept: KeptDraft | null): void {
  try {
    if (kept === null) localStorage.removeItem(prefix + name);
    else localStorage.setItem(prefix + name, JSON.stringify(kept));
  } catch {
    // Without room for it the form still holds its entries.
  }
}

export function keptDraft(name: string): KeptDraft | null {
  try {
    const read: unknown = JSON.parse(localStorage.getItem(prefix + name) ?? 'null');
    if (typeof read !== 'object' || read === null || !('draft' in read) || !('at' in read)) return null;
    const { draft, at } = read;
    if (typeof draft !== 'object' || draft === null || Array.isArray(draft) || typeof at !== 'string') return null;
    return { draft: { ...draft }, at };
  } catch {
    return null;
  }
}
