import { useState } from 'react';
import { TextInput } from '@mantine/core';
import { readEntry } from './readEntry.ts';
import type { EntryKind } from './readEntry.ts';

export type { EntryKind } from './readEntry.ts';

export interface QuantityFieldProps {
  id: string;
  label: string;
  kind: EntryKind;
  /** As typed; absent where nothing is. */
  value: string | undefined;
  onChange: (text: string) => void;
  /** What the form found; in its absence the field says what it cannot read itself. */
  error?: string | undefined;
  optional?: boolean;
  description?: string;
}

/** A quantity typed with its unit. Below it, live, what it means in the other unit; what was typed stays as typed. */
export function QuantityField(props: QuantityFieldProps) {
  const { id, label, kind, value = '', onChange, error, optional = false, description } = props;
  // While the hand is still writing, "16" is no mistake yet.
  const [writing, setWriting] = useState(false);
  const reading = readEntry(kind, value);
  const own = reading.kind === 'refused' ? reading.why : undefined;
  const shown = error ?? (writing ? undefined : own);
  const below = [
    ...(description === undefined ? [] : [description]),
    ...(reading.kind === 'read' ? [reading.said] : shown === undefined && own !== undefined ? [own] : []),
  ];
  return (
    <TextInput
      id={id}
      className="bw-field"
      label={`${label}${optional ? ', optional' : ''} (with unit)`}
      description={below.length === 0 ? undefined : below.join(' · ')}
      value={value}
      error={shown}
      autoComplete="off"
      spellCheck={false}
      onFocus={() => setWriting(true)}
      onBlur={() => setWriting(false)}
      onChange={({ currentTarget }) => onChange(currentTarget.value)}
    />
  );
}
