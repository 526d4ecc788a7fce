import type { Draft } from './draft.ts';
import { putOnDisk } from './draftsOnDisk.ts';

/** Entries that were not saved yet outlive a crash of the page and a walk to another sheet. They are no record. */
const prefix = 'bagwright-draft:';

export interface KeptDraft {
  draft: Draft;
  /** ISO 8601. */
  at: string;
  /** When it was typed, where it has been handed on since. */
  typed?: string;
}

export const typedAt = ({ at, typed }: KeptDraft): string => typed ?? at;

/** What one window left of one form. */
export interface DraftCopy extends KeptDraft {
  name: string;
  form: string;
  /** Null: kept when all windows still had one together. */
  window: string | null;
}

/** No form's own name begins with the sign. */
export const copyName = (window: string, form: string): string => `@${window}:${form}`;

function partsOf(name: string): Pick<DraftCopy, 'form' | 'window'> {
  const [, window = null, form = name] = /^@([^:]*):(.*)$/s.exec(name) ?? [];
  return { window, form };
}

const namesKept = (): string[] =>
  Object.keys(localStorage)
    .filter((key) => key.startsWith(prefix))
    .map((key) => key.slice(prefix.length));

export const formsKept = (): Set<string> => new Set(namesKept().map((name) => partsOf(name).form));

/** Those of one form, what was typed last first. */
export function copiesOf(form: string): DraftCopy[] {
  return namesKept()
    .filter((name) => partsOf(name).form === form)
    .map(copyAt)
    .filter((copy) => copy !== null)
    .toSorted((one, other) => (typedAt(one) > typedAt(other) ? -1 : 1));
}

export function copyAt(name: string): DraftCopy | null {
  const kept = readDraft(localStorage.getItem(prefix + name));
  return kept === null ? null : { ...kept, ...partsOf(name), name };
}

export const isKeptAs = (name: string): boolean => localStorage.getItem(prefix + name) !== null;

export function putText(name: string, text: string | null): void {
  if (text === null) localStorage.removeItem(prefix + name);
  else localStorage.setItem(prefix + name, text);
}

/** Null: it was saved or given up. */
export function putCopy(name: string, kept: KeptDraft | null): void {
  const text = kept === null ? null : JSON.stringify(kept);
  const at = kept?.at ?? new Date().toISOString();
  putText(name, text);
  putOnDisk({ name, text, at }).catch(() => undefined);
}

function readDraft(text: string | null): KeptDraft | null {
  const read = parsed(text);
  if (typeof read !== 'object' || read === null || !('draft' in read) || !('at' in read)) return null;
  const { draft, at } = read;
  if (typeof draft !== 'object' || draft === null || Array.isArray(draft) || typeof at !== 'string') return null;
  const typed = 'typed' in read && typeof read.typed === 'string' ? { typed: read.typed } : {};
  return { draft: { ...draft }, at, ...typed };
}

/** What another program wrote there hides no draft beside it. */
function parsed(text: string | null): unknown {
  try {
    return JSON.parse(text ?? 'null');
  } catch {
    return null;
  }
}
