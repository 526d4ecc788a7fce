import { useState } from 'react';
import { Button, NativeSelect, TextInput } from '@mantine/core';
import type { Minimised } from '../../../shared-types/bag.ts';
import { FieldErrors } from '../../components/FieldErrors/FieldErrors.tsx';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { objectiveUnits } from '../bag/amounts.ts';
import type { Asked } from '../bag/asked.ts';
import { askedOf, oneBagOutings, planFaults, timeField } from './planDraft.ts';
import type { PlanDraft } from './planDraft.ts';
import { ToleranceField } from './ToleranceField.tsx';
import { WishFields } from './WishFields.tsx';
import './bagPlan.css';

export interface PlanFormProps {
  plan: ResolvedPlan;
  draft: PlanDraft;
  onDraft: (draft: PlanDraft) => void;
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

/** What the bag shall be least in, what loss it shall stand, what it shall hold, and how long it may be searched. */
export function PlanFormFields({ plan, draft, onDraft, again, onPlan, onLeave }: PlanFormProps) {
  const [sent, setSent] = useState(0);
  const faults = planFaults(plan, draft);
  const shown = sent > 0 ? faults : [];
  const errorOf = (field: string): string | undefined => shown.find((fault) => fault.field === field)?.message;
  const send = (): void => {
    setSent(sent + 1);
    if (faults.length === 0) onPlan(askedOf(draft));
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
      <FieldErrors errors={shown} asked={sent} />
      <div className="bw-plan-fields">
        <NativeSelect
          label="Plan for"
          data={choices}
          value={draft.minimised}
          onChange={({ currentTarget: { value } }) => {
            if (isMinimised(value)) onDraft({ ...draft, minimised: value });
          }}
        />
        <TextInput
          id={timeField}
          label="Time limit (s)"
          description="Empty: until proved"
          inputMode="decimal"
          value={draft.timeLimit}
          error={errorOf(timeField)}
          onChange={({ currentTarget: { value } }) => onDraft({ ...draft, timeLimit: value })}
        />
      </div>
      <ToleranceField
        value={draft.tolerance}
        onChange={(tolerance) => onDraft({ ...draft, tolerance })}
        oneBag={oneBagOutings(plan)}
      />
      <WishFields plan={plan} draft={draft} errorOf={errorOf} onDraft={onDraft} />
      <span className="bw-plan-buttons">
        <Button type="submit" variant="filled">
          {again ? 'Plan again' : 'Plan the bag'}
        </Button>
        {onLeave === null ? null : <Button onClick={onLeave}>Leave as it is</Button>}
      </span>
    </form>
  );
}
