import { NativeSelect } from '@mantine/core';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';

export interface OutingChooserProps {
  plan: ResolvedPlan;
  outing: string;
  onOuting: (id: string) => void;
}

/** Which outing the sheet is about. */
export function OutingChooser({ plan, outing, onOuting }: OutingChooserProps) {
  return (
    <NativeSelect
      aria-label="Outing"
      data={plan.outings.map(({ id, name }) => ({ value: id, label: name === id ? `Outing ${id}` : name }))}
      value={outing}
      onChange={({ currentTarget: { value } }) => onOuting(value)}
    />
  );
}
