import { useState } from 'react';
import { Button, NativeSelect, TextInput } from '@mantine/core';
import type { Minimised } from '../../../shared-types/bag.ts';
import { FieldErrors } from '../../components/FieldErrors/FieldErrors.tsx';
import { objectiveUnits } from './amounts.ts';
import type { Asked } from './planning.ts';
import { timeLimitFault, timeLimitS } from './timeLimit.ts';

export interface PlanForm {
  minimised: Minimised;
  /** As typed. */
  timeLimit: string;
}

export interface PlanFormProps {
  first: Asked;
  again: boolean;
  onPlan: (asked: Asked) => void;
  onLeave: (() => void) | null;
}

const choices = [
  { value: 'mass', label: 'Least mass' },
  { value: 'count', label: 'Fewest pieces' },
  { value: 'volume', label: 'Least volume' },
];

const isMinimised = (value: string): value is Minimised => value in objectiveUnits;

/** What the bag shall be least in, and how long it may be searched. */
export function PlanFormFields({ first, again, onPlan, onLeave }: PlanFormProps) {
  const [form, setForm] = useState<PlanForm>({
    minimised: first.minimised,
    timeLimit: first.timeLimitS?.toString() ?? '',
  });
  const [asked, setAsked] = useState(0);
  const fault = timeLimitFault(form.timeLimit);
  const shownFault = asked > 0 ? fault : null;
  const send = (): void => {
    setAsked(asked + 1);
    if (fault === null) onPlan({ minimised: form.minimised, timeLimitS: timeLimitS(form.timeLimit) });
  };
  return (
    <form
      className="bw-plan-form"
      aria-label="Plan the bag"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        send();
      }}
    >
      <FieldErrors errors={shownFault === null ? [] : [{ field: 'time-limit', message: shownFault }]} asked={asked} />
      <div className="bw-plan-fields">
        <NativeSelect
          label="Plan for"
          data={choices}
          value={form.minimised}
          onChange={({ currentTarget: { value } }) => {
            if (isMinimised(value)) setForm({ ...form, minimised: value });
          }}
        />
        <TextInput
          id="time-limit"
          label="Time limit (s)"
          description="Empty: until proved"
          inputMode="decimal"
          value={form.timeLimit}
          error={shownFault}
          onChange={({ currentTarget: { value } }) => setForm({ ...form, timeLimit: value })}
        />
        <span className="bw-plan-buttons">
          <Button type="submit" variant="filled">
            {again ? 'Plan again' : 'Plan the bag'}
          </Button>
          {onLeave === null ? null : <Button onClick={onLeave}>Leave as it is</Button>}
        </span>
      </div>
    </form>
  );
}
