import { useId } from 'react';
import './Switch.css';

export interface SwitchProps<Value extends string> {
  /** What is chosen; said to those who cannot see the heading above. */
  label: string;
  value: Value;
  choices: readonly { value: Value; label: string }[];
  onChange: (value: Value) => void;
}

/** A few choices side by side, one of them on. Radio buttons underneath: one tab stop, arrows choose. */
export function Switch<Value extends string>({ label, value, choices, onChange }: SwitchProps<Value>) {
  const name = useId();
  return (
    <fieldset className="bw-switch" aria-label={label}>
      {choices.map((choice) => (
        <label key={choice.value}>
          <input
            type="radio"
            name={name}
            value={choice.value}
            checked={choice.value === value}
            onChange={() => onChange(choice.value)}
          />
          {choice.label}
        </label>
      ))}
    </fieldset>
  );
}
