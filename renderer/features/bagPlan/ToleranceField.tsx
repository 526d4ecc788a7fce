import type { Tolerance } from '../../../shared-types/bag.ts';

export interface ToleranceFieldProps {
  value: Tolerance;
  onChange: (value: Tolerance) => void;
  /** Names of outings that have one bag alone. */
  oneBag: readonly string[];
}

const choices: { value: Tolerance; label: string; meaning: string }[] = [
  { value: 'nothing', label: 'Nothing', meaning: 'Every step can be done while every piece is there.' },
  {
    value: 'piece',
    label: 'Any one piece',
    meaning: 'With any one tool piece lost or broken, every step still has a stack. Gear and bags are not counted.',
  },
  {
    value: 'bag',
    label: 'Any one bag',
    meaning: 'With any one bag gone and all it holds, every step still has a stack in the others. Gear is not counted.',
  },
];

/** How much may be lost on an outing before a step can no longer be done. */
export function ToleranceField({ value, onChange, oneBag }: ToleranceFieldProps) {
  return (
    <fieldset className="bw-tolerance">
      <legend>Shall stand the loss of</legend>
      {choices.map((choice) => (
        <div key={choice.value} className="bw-tolerance-choice">
          <label>
            <input
              type="radio"
              name="tolerance"
              value={choice.value}
              checked={choice.value === value}
              aria-describedby={`tolerance-${choice.value}`}
              onChange={() => onChange(choice.value)}
            />
            {choice.label}
          </label>
          <p id={`tolerance-${choice.value}`} className="bw-second bw-small">
            {choice.meaning}
          </p>
        </div>
      ))}
      {value === 'nothing' ? null : (
        <p className="bw-small">After a loss, steps meant for the same time may run one after another.</p>
      )}
      {value !== 'bag' || oneBag.length === 0 ? null : (
        <p className="bw-small" role="note">
          <b>{oneBag.length === 1 ? `${oneBag[0]} has one bag only` : `${oneBag.length} outings have one bag only`}</b>:
          no plan can stand the loss of it. {oneBag.length === 1 ? '' : oneBag.join(', ')}
        </p>
      )}
    </fieldset>
  );
}
