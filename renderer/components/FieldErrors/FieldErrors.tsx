import { useEffect, useRef } from 'react';
import '../ErrorSummary/ErrorSummary.css';

export interface FieldError {
  /** Id of the field's input. */
  field: string;
  /** The same words that stand beside the field. */
  message: string;
}

/** What a form's fields need, above the form, each leading to its field. Takes the focus each time it is asked. */
export function FieldErrors({ errors, asked }: { errors: FieldError[]; asked: number }) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    if (errors.length > 0) heading.current?.focus();
    // The focus moves when the form is sent, not while a field is being mended.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [asked]);
  if (errors.length === 0) return null;
  return (
    <section className="bw-refused" aria-labelledby="field-errors">
      <h3 id="field-errors" ref={heading} tabIndex={-1}>
        {errors.length === 1 ? '1 field to mend' : `${errors.length} fields to mend`}
      </h3>
      <ul>
        {errors.map(({ field, message }) => (
          <li key={field}>
            <button type="button" className="bw-link" onClick={() => document.getElementById(field)?.focus()}>
              {message}
            </button>
          </li>
        ))}
      </ul>
    </section>
  );
}
