import { useId, useState } from 'react';
import type { FocusEvent, FormEvent, ReactNode } from 'react';
import { Textarea, TextInput } from '@mantine/core';
import { FieldErrors } from '../../components/FieldErrors/FieldErrors.tsx';
import { ChoiceField } from '../../components/Fields/ChoiceField.tsx';
import { QuantityField } from '../../components/QuantityField/QuantityField.tsx';
import { fieldsNow, type BenchField, type BenchSheet, type Typed } from './benchSheet.ts';
import type { BenchFault } from './outcome.ts';
import '../../components/RecordForm/RecordForm.css';

export interface BenchFormProps {
  sheet: BenchSheet;
  typed: Typed;
  isExample: boolean;
  faults: readonly BenchFault[];
  /** How often the form was sent while something was to mend. */
  asked: number;
  onType: (key: string, text: string) => void;
  onSend: () => void;
  /** Above the fields: where entries may be taken from. */
  taken?: ReactNode;
  children: ReactNode;
}

/** The entries of one computation. A mistake is said beside its field once the hand has left it, or the form was sent. */
export function BenchForm(props: BenchFormProps) {
  const { sheet, typed, isExample, faults, asked, onType, onSend, taken, children } = props;
  const formId = useId();
  const headingId = `${formId}-heading`;
  const [writing, setWriting] = useState<string | null>(null);
  const idOf = (key: string): string => `${formId}-${key}`;
  const keyAt = (event: FocusEvent): string => event.target.id.slice(formId.length + 1);
  return (
    <form
      className="bw-bench-form"
      aria-labelledby={headingId}
      noValidate
      onFocus={(event) => setWriting(keyAt(event))}
      onBlur={() => setWriting(null)}
      onSubmit={(event: FormEvent) => {
        event.preventDefault();
        onSend();
      }}
    >
      <h2 id={headingId}>Numbers put in</h2>
      {asked === 0 ? null : (
        <FieldErrors
          asked={asked}
          errors={faults.map(({ key, message }) => ({ field: key === null ? headingId : idOf(key), message }))}
        />
      )}
      {isExample ? (
        <p className="bw-second bw-small">An example, invented. Type over it; entries stay until cleared.</p>
      ) : null}
      {taken}
      <div className="bw-bench-fields">
        {fieldsNow(sheet, typed).map((field) => (
          <div key={field.key} data-half={field.half || undefined}>
            <BenchInput
              field={field}
              id={idOf(field.key)}
              value={typed[field.key] ?? ''}
              error={
                asked > 0 || (writing !== field.key && (typed[field.key] ?? '').trim() !== '')
                  ? faults.find(({ key }) => key === field.key)?.message
                  : undefined
              }
              onChange={(text) => onType(field.key, text)}
            />
          </div>
        ))}
      </div>
      {children}
    </form>
  );
}

interface InputProps {
  field: BenchField;
  id: string;
  value: string;
  error: string | undefined;
  onChange: (text: string) => void;
}

function BenchInput({ field, id, value, error, onChange }: InputProps) {
  const { label, hint, optional = false } = field;
  const description = hint === undefined ? {} : { description: hint };
  if (field.is === 'quantity')
    return (
      <QuantityField
        id={id}
        label={label}
        kind={field.of}
        value={value}
        onChange={onChange}
        error={error}
        optional={optional}
        {...description}
      />
    );
  if (field.is === 'choice')
    return (
      <ChoiceField
        id={id}
        label={label}
        value={value === '' ? undefined : value}
        choices={field.choices}
        onChange={(chosen) => onChange(chosen ?? '')}
        error={error}
        {...description}
      />
    );
  const common = {
    id,
    className: 'bw-field',
    label: `${label}${optional && !label.includes('optional') ? ', optional' : ''}`,
    value,
    error,
    autoComplete: 'off',
    spellCheck: false,
    ...description,
  };
  if (field.is === 'lines')
    return (
      <Textarea
        {...common}
        autosize
        minRows={2}
        maxRows={12}
        inputWrapperOrder={['label', 'input', 'description', 'error']}
        onChange={({ currentTarget }) => onChange(currentTarget.value)}
      />
    );
  return (
    <TextInput
      {...common}
      inputMode={field.is === 'number' ? 'decimal' : 'text'}
      onChange={({ currentTarget }) => onChange(currentTarget.value)}
    />
  );
}
