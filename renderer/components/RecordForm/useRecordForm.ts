import { useEffect, useId, useState } from 'react';
import type { FieldError } from '../FieldErrors/FieldErrors.tsx';
import { canonical, saysTheSame, valueAt, withValue } from './draft.ts';
import type { Draft } from './draft.ts';
import { messagesByField } from './faultFields.ts';
import type { Fault } from './faultFields.ts';
import { typedAt } from './draftCopies.ts';
import type { DraftCopy, KeptDraft } from './draftCopies.ts';
import { keepDraft, keptDraft, otherDrafts, takeInstead } from './keptDraft.ts';

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
  /** Further entries for this form that were not saved: of other windows, or set aside in this one. */
  others: readonly DraftCopy[];
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
  /** Shows one of `others`; what stood here is one of them then. */
  show: (other: DraftCopy) => void;
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
  const isSaved = (typed: Draft): boolean => saysTheSame(typed, first) || isKept?.(typed) === true;
  const [back, setBack] = useState<KeptDraft | null>(() => (keepAs === undefined ? null : keptDraft(keepAs, isSaved)));
  const [draft, setDraft] = useState<Draft>(back?.draft ?? initial);
  const othersThan = (shown: Draft): DraftCopy[] => {
    const copies = keepAs === undefined ? [] : otherDrafts(keepAs);
    return eachOnce(
      copies.filter((copy) => !isSaved(copy.draft)),
      shown,
    );
  };
  const [others, setOthers] = useState(() => othersThan(draft));
  const [asked, setAsked] = useState(0);
  // The paths that the form has fields for, with their labels, filled as it is drawn.
  const [labels] = useState(() => new Map<string, string>());
  const changed = canonical(draft) !== canonical(first);
  const faults = asked > 0 ? faultsOf(draft) : [];
  const messages = messagesByField(faults, labels);
  const idOf = (path: string): string => `${formId}-${path}`;

  useEffect(() => {
    if (keepAs === undefined) return undefined;
    const timer = setTimeout(() => keepDraft(keepAs, changed ? asOfNow(draft, back) : null), keptAfterMs);
    return () => clearTimeout(timer);
  }, [keepAs, draft, changed, back]);

  // What is typed on here, while another window has it too, is a record of its own: saving one does not stand for both.
  const type = (next: (before: Draft) => Draft): void =>
    setDraft((before) => {
      const isElsewhere = (): boolean => otherDrafts(keepAs ?? '').some((other) => other.draft['id'] === before['id']);
      const isApart = before === back?.draft && before['id'] !== first['id'] && isElsewhere();
      return isApart ? { ...next(before), id: first['id'] } : next(before);
    });
  const set = (path: string, value: unknown): void => type((before) => withValue(before, path, value));
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
    broughtBack: back === null ? null : typedAt(back),
    others,
    text: (path, label) => bound(path, label, isText),
    number: (path, label) => bound(path, label, isNumberOrText),
    choice: <Value extends string>(path: string, label: string) =>
      bound<Value, Value | undefined>(path, label, (value): value is Value => typeof value === 'string'),
    yesNo: (path, label) => bound(path, label, isYesNo),
    lines: (path, label) => bound(path, label, isLines),
    set,
    replace: (next) => type(() => next),
    ask: () => {
      setAsked((before) => before + 1);
      return faultsOf(draft).length === 0;
    },
    show: (other) => {
      if (keepAs === undefined) return;
      const found = takeInstead(keepAs, changed ? asOfNow(draft, back) : null, other);
      setOthers(othersThan(found?.draft ?? draft));
      if (found === null) return;
      setDraft(found.draft);
      setBack(found);
      setAsked(0);
    },
    forget: () => {
      if (keepAs !== undefined) keepDraft(keepAs, null);
      setDraft(first);
      setAsked(0);
      setBack(null);
    },
  };
}

/** Entries that came back and were not touched since keep the time at which they were typed. */
function asOfNow(draft: Draft, back: KeptDraft | null): KeptDraft {
  const at = new Date().toISOString();
  return draft === back?.draft ? { draft, at, typed: typedAt(back) } : { draft, at };
}

/** Without those that say what is shown, or what another of them says. */
function eachOnce(copies: readonly DraftCopy[], shown: Draft): DraftCopy[] {
  const drafts = [shown, ...copies.map(({ draft }) => draft)];
  return copies.filter(({ draft }, index) => !drafts.slice(0, index + 1).some((said) => saysTheSame(said, draft)));
}

const isText = (value: unknown): value is string => typeof value === 'string';
const isNumberOrText = (value: unknown): value is number | string =>
  typeof value === 'number' || typeof value === 'string';
const isYesNo = (value: unknown): value is boolean => typeof value === 'boolean';
const isLines = (value: unknown): value is string[] =>
  Array.isArray(value) && value.every((line) => typeof line === 'string');
