import { Textarea, TextInput } from '@mantine/core';
import { labelText } from './fieldProps.ts';
import type { FieldProps } from './fieldProps.ts';

export interface TextFieldProps extends FieldProps<string> {
  onChange: (text: string) => void;
  /** Several lines. */
  long?: boolean;
  /** Offered while typing; anything else may be typed too. */
  offered?: readonly string[];
}

/** Words as they are typed; how long they may be is said by the form, never cut off here. */
export function TextField(props: TextFieldProps) {
  const { id, value = '', onChange, error, description, long = false, offered } = props;
  const common = { id, className: 'bw-field', label: labelText(props), value, error, description, autoComplete: 'off' };
  if (long) {
    return (
      <Textarea
        {...common}
        autosize
        minRows={2}
        maxRows={8}
        inputWrapperOrder={['label', 'input', 'description', 'error']}
        onChange={({ currentTarget }) => onChange(currentTarget.value)}
      />
    );
  }
  return (
    <>
      <TextInput
        {...common}
        {...(offered === undefined ? {} : { list: `${id}-offered` })}
        onChange={({ currentTarget }) => onChange(currentTarget.value)}
      />
      {offered === undefined ? null : (
        <datalist id={`${id}-offered`}>
          {offered.map((text) => (
            <option key={text} value={text}>
              {text}
            </option>
          ))}
        </datalist>
      )}
    </>
  );
}
