import { signalWords } from '../../../shared-types/plan.ts';
import type { Caution, SignalWord } from '../../../shared-types/plan.ts';
import { ChoiceField } from '../../components/Fields/ChoiceField.tsx';
import { TextField } from '../../components/Fields/TextField.tsx';
import type { RecordFormState } from '../../components/RecordForm/useRecordForm.ts';
import { RowsField } from '../../components/RowsField/RowsField.tsx';

/** The meanings of ANSI Z535. */
const meanings: Record<SignalWord, string> = {
  DANGER: 'will kill or maim if it is not avoided; used sparingly',
  WARNING: 'could kill or maim',
  CAUTION: 'could hurt slightly',
  NOTICE: 'could damage things, hurts nobody',
};
const choices = signalWords.map((value) => ({ value, label: `${value}: ${meanings[value]}` }));

/** What a step warns of. Cards print it before the step, the gravest first. */
export function CautionFields({ form }: { form: RecordFormState }) {
  const kept = form.draft['cautions'];
  const rows: readonly Caution[] = Array.isArray(kept) ? (kept as Caution[]) : [];
  const set = (next: readonly Caution[]): void => form.set('cautions', next.length === 0 ? undefined : next);
  const change = (index: number, given: Partial<Caution>): void =>
    set(rows.map((row, at) => (at === index ? { ...row, ...given } : row)));
  return (
    <fieldset className="bw-form-group">
      <legend>Cautions</legend>
      <RowsField
        what="Caution"
        rows={rows}
        addLabel="Add a caution"
        onAdd={() => set([...rows, { word: 'CAUTION', text: '' }])}
        onRemove={(index) => set(rows.filter((_, at) => at !== index))}
      >
        {(row, index) => (
          <>
            <ChoiceField
              {...form.choice<SignalWord>(`cautions.${index}.word`, `Caution ${index + 1}, signal word`)}
              value={row.word}
              choices={choices}
              onChange={(word) => change(index, word === undefined ? {} : { word })}
            />
            <TextField
              {...form.text(`cautions.${index}.text`, `Caution ${index + 1}`)}
              description="The hazard, what it does, how to avoid it"
              value={row.text}
              onChange={(text) => change(index, { text })}
            />
          </>
        )}
      </RowsField>
    </fieldset>
  );
}
