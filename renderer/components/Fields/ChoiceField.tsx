import { NativeSelect } from '@mantine/core';
import { labelText } from './fieldProps.ts';
import type { FieldProps } from './fieldProps.ts';

export interface ChoiceFieldProps<Value extends string> extends FieldProps<Value> {
  choices: readonly { value: Value; label: string }[];
  onChange: (value: Value | undefined) => void;
}

/** One of a few; the browser's own list, which every key and every reader knows. */
export function ChoiceField<Value extends string>(props: ChoiceFieldProps<Value>) {
  const { id, value, onChange, error, description, choices, optional = false } = props;
  const none = optional
    ? [{ value: '', label: 'not said' }]
    : value === undefined
      ? [{ value: '', label: 'Choose…' }]
      : [];
  return (
    <NativeSelect
      id={id}
      className="bw-field"
      label={labelText(props)}
      description={description}
      error={error}
      data={[...none, ...choices]}
      value={value ?? ''}
      onChange={({ currentTarget }) => onChange(choices.find((choice) => choice.value === currentTarget.value)?.value)}
    />
  );
}
