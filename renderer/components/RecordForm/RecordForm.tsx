import { useEffect, useId, useRef, useState } from 'react';
import type { KeyboardEvent, ReactNode } from 'react';
import { Button } from '@mantine/core';
import { ConflictPanel } from '../ConflictPanel/ConflictPanel.tsx';
import type { ConflictWords, RecordConflict } from '../ConflictPanel/ConflictPanel.tsx';
import { FieldErrors } from '../FieldErrors/FieldErrors.tsx';
import { StateMark } from '../StateMark/StateMark.tsx';
import { BackNote } from './BackNote.tsx';
import { LeaveQuestion } from './LeaveQuestion.tsx';
import { conflictsIn, isInDoubt, reasonOf, whatRemains } from './refusedSave.ts';
import type { RecordFormState } from './useRecordForm.ts';
import './RecordForm.css';

export interface RecordFormProps {
  form: RecordFormState;
  /** "Edit S-18D". */
  heading: string;
  /** Verb and object: "Save S-18D", "Add item". */
  saveLabel: string;
  /** Said before saving: what else the same act changes. */
  beforeSaving?: ReactNode;
  /** Another way to send the form, beside its button. */
  also?: ReactNode;
  /**
   * Keeps the draft; it fails with a ConflictError or a NotSavedError. `over` holds the conflicts which the person
   * decided for this draft.
   */
  save: (over: readonly RecordConflict[]) => Promise<unknown>;
  onSaved: () => void;
  onLeave: () => void;
  /** Counted up by who wants the form closed, as by taking another row in hand: it is asked for as by Esc. */
  leaveAsked?: number;
  /** The person would rather stay. */
  onStay?: () => void;
  words?: ConflictWords;
  children: ReactNode;
}

type Saving =
  | { kind: 'none' }
  | { kind: 'saving' }
  | { kind: 'not-saved'; reason: string; inDoubt: boolean }
  | { kind: 'conflict'; conflicts: readonly RecordConflict[] };

/** The frame of a form about a record: what is wrong on top, the fields, and the way out in words. */
export function RecordForm(props: RecordFormProps) {
  const { form, heading, saveLabel, beforeSaving, also, save, onSaved, onLeave, words, children } = props;
  const { leaveAsked = 0, onStay } = props;
  const headingId = useId();
  const element = useRef<HTMLFormElement>(null);
  const notSaved = useRef<HTMLDivElement>(null);
  const [saving, setSaving] = useState<Saving>({ kind: 'none' });
  const [leaving, setLeaving] = useState(false);
  const busy = useRef(false);

  const focusFirst = (): void => element.current?.querySelector<HTMLElement>('input, select, textarea')?.focus();
  useEffect(focusFirst, []);
  useEffect(() => {
    if (!form.changed) return undefined;
    const ask = (event: BeforeUnloadEvent): void => event.preventDefault();
    window.addEventListener('beforeunload', ask);
    return () => window.removeEventListener('beforeunload', ask);
  }, [form.changed]);
  useEffect(() => {
    if (saving.kind === 'not-saved') notSaved.current?.focus();
  }, [saving]);

  const send = async (over: readonly RecordConflict[]): Promise<void> => {
    if (busy.current || !form.ask()) return;
    busy.current = true;
    setSaving({ kind: 'saving' });
    try {
      await save(over);
      busy.current = false;
      setSaving({ kind: 'none' });
      form.forget();
      onSaved();
    } catch (error) {
      busy.current = false;
      const conflicts = conflictsIn(error);
      setSaving(
        conflicts === null
          ? { kind: 'not-saved', reason: reasonOf(error), inDoubt: isInDoubt(error) }
          : { kind: 'conflict', conflicts },
      );
    }
  };
  const drop = (): void => {
    form.forget();
    onLeave();
  };
  const leave = (): void => {
    if (busy.current) return;
    if (form.changed) setLeaving(true);
    else drop();
  };
  const answered = useRef(leaveAsked);
  useEffect(() => {
    if (answered.current === leaveAsked) return;
    answered.current = leaveAsked;
    leave();
  });
  const onKeyDown = (event: KeyboardEvent): void => {
    if (event.key === 'Escape' && !event.defaultPrevented) {
      event.preventDefault();
      event.stopPropagation();
      leave();
    } else if (event.key === 'Enter' && (event.ctrlKey || event.metaKey)) {
      event.preventDefault();
      void send([]);
    }
  };

  return (
    <>
      <form
        ref={element}
        className="bw-form"
        aria-labelledby={headingId}
        noValidate
        onKeyDown={onKeyDown}
        onSubmit={(event) => {
          event.preventDefault();
          void send([]);
        }}
      >
        <h1 id={headingId}>{heading}</h1>
        <FieldErrors errors={form.errors} asked={form.asked} />
        {saving.kind !== 'not-saved' ? null : (
          <div ref={notSaved} className="bw-form-notsaved" role="alert" tabIndex={-1}>
            <StateMark state="not-saved" />
            <p>{saving.reason}</p>
            <p className="bw-second">
              Everything you typed stands below as it was.{' '}
              {saving.inDoubt ? whatRemains(saving) : 'Nothing of it is kept yet.'}
            </p>
          </div>
        )}
        <BackNote
          form={form}
          onShow={(other) => {
            form.show(other);
            focusFirst();
          }}
        />
        <div className="bw-form-fields">{children}</div>
        {beforeSaving === undefined ? null : <div className="bw-form-before">{beforeSaving}</div>}
        <div className="bw-form-foot">
          <Button type="submit" variant="filled" aria-disabled={saving.kind === 'saving' || undefined}>
            {saving.kind === 'saving' ? 'Saving…' : saveLabel}
          </Button>
          {also}
          <Button onClick={leave}>Leave</Button>
          <span className="bw-second bw-small">
            <kbd>Ctrl</kbd> <kbd>Enter</kbd> saves · <kbd>Esc</kbd> leaves
          </span>
          <span role="status" className="bw-hidden">
            {saving.kind === 'saving' ? 'Saving…' : ''}
          </span>
        </div>
      </form>
      {leaving ? (
        <LeaveQuestion
          what={heading}
          onStay={() => {
            setLeaving(false);
            onStay?.();
          }}
          onLeave={() => {
            setLeaving(false);
            drop();
          }}
        />
      ) : null}
      {saving.kind !== 'conflict' ? null : (
        <ConflictPanel
          conflicts={saving.conflicts}
          {...(words === undefined ? {} : { words })}
          onKeep={drop}
          onMine={() => {
            const { conflicts } = saving;
            void send(conflicts);
          }}
          onEdit={() => setSaving({ kind: 'none' })}
        />
      )}
    </>
  );
}
