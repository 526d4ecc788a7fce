import { Textarea, TextInput } from '@mantine/core';

/** Why, and who says so. */
export interface Given {
  reason: string;
  person: string;
}

export interface ReasonAndNameProps {
  given: Given;
  onGiven: (given: Given) => void;
  /** What a reason would say. */
  description: string;
  /** Whether what is missing is said: not before the form was sent once. */
  asked: boolean;
}

/** The same without spaces around it; null where something is missing. */
export function wholeOf({ reason, person }: Given): Given | null {
  const whole = { reason: reason.trim(), person: person.trim() };
  return whole.reason === '' || whole.person === '' ? null : whole;
}

/** The two fields of whatever a person takes upon themselves. */
export function ReasonAndName({ given, onGiven, description, asked }: ReasonAndNameProps) {
  const lacks = (text: string, what: string): string | undefined =>
    asked && text.trim() === '' ? `${what} is missing.` : undefined;
  return (
    <>
      <Textarea
        className="bw-field"
        label="Reason"
        description={description}
        autosize
        minRows={2}
        maxRows={8}
        maxLength={2000}
        value={given.reason}
        error={lacks(given.reason, 'Reason')}
        onChange={({ currentTarget }) => onGiven({ ...given, reason: currentTarget.value })}
      />
      <TextInput
        className="bw-field"
        label="Your name"
        autoComplete="off"
        maxLength={2000}
        value={given.person}
        error={lacks(given.person, 'Your name')}
        onChange={({ currentTarget }) => onGiven({ ...given, person: currentTarget.value })}
      />
    </>
  );
}
