import { ChoiceField } from './ChoiceField.tsx';
import type { FieldProps } from './fieldProps.ts';

export interface YesNoFieldProps extends FieldProps<boolean> {
  onChange: (value: boolean | undefined) => void;
}

const choices = [
  { value: 'yes', label: 'Yes' },
  { value: 'no', label: 'No' },
] as const;

/** Yes, no, and where it is optional: not said, which is neither. */
export function YesNoField({ value, onChange, ...rest }: YesNoFieldProps) {
  return (
    <ChoiceField
      {...rest}
      choices={choices}
      value={value === undefined ? undefined : value ? 'yes' : 'no'}
      onChange={(chosen) => onChange(chosen === undefined ? undefined : chosen === 'yes')}
    />
  );
}
