import { useState } from 'react';
import { Textarea } from '@mantine/core';
import { labelText } from './fieldProps.ts';
import type { FieldProps } from './fieldProps.ts';

export interface LinesFieldProps extends FieldProps<readonly string[]> {
  /** One for each line that says something; undefined where none does. */
  onChange: (lines: string[] | undefined) => void;
}

function linesOf(text: string): string[] {
  return text
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '');
}

const same = (a: readonly string[], b: readonly string[]): boolean =>
  a.length === b.length && a.every((line, index) => line === b[index]);

/** A list, one entry on each line. */
export function LinesField(props: LinesFieldProps) {
  const { id, value = [], onChange, error, description } = props;
  const [typed, setTyped] = useState(() => value.join('\n'));
  const text = same(linesOf(typed), value) ? typed : value.join('\n');
  return (
    <Textarea
      id={id}
      className="bw-field"
      label={`${labelText(props)}, one on each line`}
      description={description}
      error={error}
      autosize
      minRows={2}
      maxRows={10}
      autoComplete="off"
      inputWrapperOrder={['label', 'input', 'description', 'error']}
      value={text}
      onChange={({ currentTarget }) => {
        setTyped(currentTarget.value);
        const lines = linesOf(currentTarget.value);
        onChange(lines.length === 0 ? undefined : lines);
      }}
    />
  );
}
