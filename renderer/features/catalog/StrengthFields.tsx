import { useState } from 'react';
import { ChoiceField } from '../../components/Fields/ChoiceField.tsx';
import { NumberField } from '../../components/Fields/NumberField.tsx';
import { TextField } from '../../components/Fields/TextField.tsx';
import { valueAt } from '../../components/RecordForm/draft.ts';
import type { RecordFormState } from '../../components/RecordForm/useRecordForm.ts';

const ways = [
  { value: 'name', label: 'by its class or grade' },
  { value: 'stresses', label: 'by its stresses' },
] as const;

/** A class or grade by name, or the stresses themselves: never both. */
export function StrengthFields({ form }: { form: RecordFormState }) {
  const given = valueAt(form.draft, 'strength');
  const [chosen, setChosen] = useState<'name' | 'stresses'>('name');
  const way = typeof given === 'object' ? 'stresses' : typeof given === 'string' ? 'name' : chosen;
  return (
    <>
      <ChoiceField
        id={`${form.text('strength', 'Strength').id}-way`}
        label="Strength is given"
        choices={ways}
        value={way}
        onChange={(next) => {
          setChosen(next ?? 'name');
          form.set('strength', undefined);
        }}
      />
      {way === 'name' ? (
        <TextField {...form.text('strength', 'Class or grade')} optional description="As 8.8 or Grade 5" />
      ) : (
        <>
          <NumberField {...form.number('strength.proofMPa', 'Proof stress (MPa)')} optional />
          <NumberField {...form.number('strength.yieldMPa', 'Yield stress (MPa)')} optional />
          <NumberField {...form.number('strength.ultimateMPa', 'Ultimate stress (MPa)')} optional />
        </>
      )}
    </>
  );
}
