import { useState } from 'react';
import { TextInput } from '@mantine/core';
import { labelText } from './fieldProps.ts';
import type { FieldProps } from './fieldProps.ts';
import { numberFault, numberOf } from './numberText.ts';

export interface NumberFieldProps extends FieldProps<number | string> {
  /** The number; the text as typed where it is none; undefined where nothing is typed. */
  onChange: (value: number | string | undefined) => void;
  /** Pieces and counts. */
  whole?: boolean;
}

/** A count or an angle: a text input, never a spinner. The unit stands in the label. */
export function NumberField(props: NumberFieldProps) {
  const { id, value, onChange, error, description, whole = false } = props;
  const [writing, setWriting] = useState(false);
  const [typed, setTyped] = useState(() => (value === undefined ? '' : String(value)));
  // What was typed stays as typed, as "2." on the way to "2.5"; a value set from elsewhere replaces it.
  const text = numberOf(typed) === value ? typed : value === undefined ? '' : String(value);
  const own = numberFault(text, whole) ?? undefined;
  return (
    <TextInput
      id={id}
      className="bw-field"
      label={labelText(props)}
      description={description}
      inputMode={whole ? 'numeric' : 'decimal'}
      autoComplete="off"
      value={text}
      error={error ?? (writing ? undefined : own)}
      onFocus={() => setWriting(true)}
      onBlur={() => setWriting(false)}
      onChange={({ currentTarget }) => {
        setTyped(currentTarget.value);
        onChange(numberOf(currentTarget.value));
      }}
    />
  );
}
