import { useId } from 'react';
import { typedAt, type DraftCopy } from './draftCopies.ts';
import { isSetAsideHere } from './keptDraft.ts';
import type { RecordFormState } from './useRecordForm.ts';

export interface BackNoteProps {
  form: RecordFormState;
  onShow: (other: DraftCopy) => void;
}

/** That entries are back which were not saved, and what else was typed for the form. */
export function BackNote({ form, onShow }: BackNoteProps) {
  const { others } = form;
  const noteId = useId();
  const isBack = form.broughtBack !== null && form.changed;
  if (!isBack && others.length === 0) return null;
  return (
    <div className="bw-form-back" role="status">
      {isBack ? (
        <p>
          Entries that were not saved are back.{' '}
          <button type="button" className="bw-link" onClick={() => form.forget()}>
            Begin again from what is kept
          </button>
        </p>
      ) : null}
      {others.map((other, index) => (
        <p key={other.name}>
          <span id={`${noteId}-${index}`}>
            Other entries for this form, typed {whenText(typedAt(other), new Date())} in{' '}
            {isSetAsideHere(other) ? 'this window' : 'another window'}:
          </span>{' '}
          <button
            type="button"
            className="bw-link"
            aria-describedby={`${noteId}-${index}`}
            onClick={() => onShow(other)}
          >
            Show them instead
          </button>
        </p>
      ))}
    </div>
  );
}

/** "at 10:02"; with its day, where that is not today's. */
function whenText(typed: string, now: Date): string {
  const [day = '', clock = ''] = minuteText(new Date(typed)).split(' ');
  return minuteText(now).startsWith(day) ? `at ${clock}` : `on ${day} at ${clock}`;
}

const minuteText = (at: Date): string => at.toLocaleString('sv-SE', { dateStyle: 'short', timeStyle: 'short' });
