import { TextInput } from '@mantine/core';
import type { Doer } from '../../../shared-types/records/revision.ts';

export interface DoerFieldsProps {
  given: Doer;
  onGiven: (given: Doer) => void;
  /** Whether what is missing is said: not before the form was sent once. */
  asked: boolean;
}

/** The same without spaces around it; null where something is missing. */
export function wholeDoer({ name, role }: Doer): Doer | null {
  const whole = { name: name.trim(), role: role.trim() };
  return whole.name === '' || whole.role === '' ? null : whole;
}

/** Who does it, and as what. */
export function DoerFields({ given, onGiven, asked }: DoerFieldsProps) {
  const lacks = (text: string, what: string): string | undefined =>
    asked && text.trim() === '' ? `${what} is missing.` : undefined;
  return (
    <>
      <TextInput
        className="bw-field"
        label="Your name"
        autoComplete="off"
        maxLength={200}
        value={given.name}
        error={lacks(given.name, 'Your name')}
        onChange={({ currentTarget }) => onGiven({ ...given, name: currentTarget.value })}
      />
      <TextInput
        className="bw-field"
        label="Your role"
        description="as packer, second counter, trainer"
        autoComplete="off"
        maxLength={200}
        value={given.role}
        error={lacks(given.role, 'Your role')}
        onChange={({ currentTarget }) => onGiven({ ...given, role: currentTarget.value })}
      />
    </>
  );
}
