import { useEffect, useId, useState } from 'react';
import type { FieldError } from '../FieldErrors/FieldErrors.tsx';
import { canonical, valueAt, withValue } from './draft.ts';
import type { Draft } from './draft.ts';
import { messagesByField } from './faultFields.ts';
import type { Fault } from './faultFields.ts';
import { keepDraft, keptDraft } from './keptDraft.ts';

/** A field tied to its place in the draft: spread it into a field component. */
export interface Bound<Value, Given = Value> {
  id: string;
  label: string;
  value: Value | undefined;
  error: string | undefined;
  onChange: (value: Given) => void;
}

export interface RecordFormState {
  draft: Draft;
  /** Whether leaving would lose anything. */
  changed: boolean;
  /** How often saving was refused for its fields; errors are shown from the first time on. */
  asked: number;
  errors: FieldError[];
  /** ISO 8601: when entries that now are back were typed; null where none were found. */
  broughtBack: string | null;
  /** Each with the field's label, which its errors begin with. */
  text: (path: string, label: string) => Bound<string>;
  number: (path: string, label: string) => Bound<number | string, number | string | undefined>;
  choice: <Value extends string>(path: string, label: string) => Bound<Value, Value | undefined>;
  yesNo: (path: string, label: string) => Bound<boolean, boolean | undefined>;
  lines: (path: string, label: string) => Bound<readonly string[], string[] | undefined>;
  set: (path: string, value: unknown) => void;
  replace: (draft: Draft) => void;
  /** Shows what is wrong from now on; true where nothing is. */
  ask: () => boolean;
  /** Back to what was there at first; nothing typed is kept. */
  forget: () => void;
}

export interface RecordFormOptions {
  initial: Draft;
  /** What is wrong with the draft as it stands. */
  faultsOf: (draft: Draft) => readonly Fault[];
  /** A name under which entries outlive a crash; forms without one keep theirs in memory alone. */
  keepAs?: string;
  /** Whether entries of a new record were kept after all, as by the foot of the window: then they are not brought back. */
  isKept?: (draft: Draft) => boolean;
}

const keptAfterMs = 300;

/** A draft with its fields. It starts from `initial` once: a record that changes meanwhile is found out by saving. */
export function useRecordForm({ initial, faultsOf, keepAs, isKept }: RecordFormOptions): RecordFormState {
  const formId = useId();
  const [first] = useState(initial);
  const [found] = useState(() => {
    const kept = keepAs === undefined ? null : keptDraft(keepAs);
    const isSaved = kept !== null && (saysTheSame(kept.draft, initial) || isKept?.(kept.draft) === true);
    return isSaved ? null : kept;
  });
  const [draft, setDraft] = useState<Draft>(found?.draft ?? initial);
  const [asked, setAsked] = useState(0);
  const [broughtBack, setBroughtBack] = useState(found?.at ?? null);
  // The paths that the form has fields for, with their labels, filled as it is drawn.
  const [labels] = useState(() => new Map<string, string>());
  const changed = canonical(draft) !== canonical(first);
  const faults = asked > 0 ? faultsOf(draft) : [];
  const messages = messagesByField(faults, labels);
  const idOf = (path: string): string => `${formId}-${path}`;

  useEffect(() => {
    if (keepAs === undefined) return undefined;
    const keep = (): void => keepDraft(keepAs, changed ? { draft, at: new Date().toISOString() } : null);
    const timer = setTimeout(keep, keptAfterMs);
    return () => clearTimeout(timer);
  }, [keepAs, draft, changed]);

  const set = (path: string, value: unknown): void => setDraft((before) => withValue(before, path, value));
  function bound<Value, Given>(
    path: string,
    label: string,
    is: (value: unknown) => value is Value,
  ): Bound<Value, Given> {
    labels.set(path, label);
    const value = valueAt(draft, path);
    return {
      id: idOf(path),
      label,
      value: is(value) ? value : undefined,
      error: messages.get(path),
      onChange: (given) => set(path, given),
    };
  }

  return {
    draft,
    changed,
    asked,
    errors: [...messages].map(([path, message]) => ({ field: idOf(path), message })),
    broughtBack,
    text: (path, label) => bound(path, label, isText),
    number: (path, label) => bound(path, label, isNumberOrText),
    choice: <Value extends string>(path: string, label: string) =>
      bound<Value, Value | undefined>(path, label, (value): value is Value => typeof value === 'string'),
    yesNo: (path, label) => bound(path, label, isYesNo),
    lines: (path, label) => bound(path, label, isLines),
    set,
    replace: (next) => setDraft(next),
    ask: () => {
      setAsked((before) => before + 1);
      return faultsOf(draft).length === 0;
    },
    forget: () => {
      if (keepAs !== undefined) keepDraft(keepAs, null);
      setDraft(first);
      setAsked(0);
      setBroughtBack(null);
    },
  };
}

/** Whatever their revisions: entries that were saved meanwhile are no loss. */
const saysTheSame = (one: Draft, other: Draft): boolean =>
  canonical({ ...one, rev: 0 }) === canonical({ ...other, rev: 0 });

const isText = (value: unknown): value is string => typeof value === 'string';
const isNumberOrText = (value: unknown): value is number | string =>
  typeof value === 'number' || typeof value === 'string';
const isYesNo = (value: unknown): value is boolean => typeof value === 'boolean';
const isLines = (value: unknown): value is string[] =>
  Array.isArray(value) && value.every((line) => typeof line === 'string');
