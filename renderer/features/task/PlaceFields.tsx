import type { TaskStep } from '../../../shared-types/records/task.ts';
import { TextField } from '../../components/Fields/TextField.tsx';
import { YesNoField } from '../../components/Fields/YesNoField.tsx';
import type { RecordFormState } from '../../components/RecordForm/useRecordForm.ts';
import { RowsField } from '../../components/RowsField/RowsField.tsx';
import { placeHindered, placeLinesOf } from './taskDraft.ts';
import type { PlaceLine } from './taskDraft.ts';

/** Where things may lie between steps and outings. */
export function PlaceFields({ form, steps }: { form: RecordFormState; steps: readonly TaskStep[] }) {
  const lines = placeLinesOf(form.draft);
  const set = (next: readonly PlaceLine[]): void => form.set('placeLines', next);
  const change = (index: number, part: Partial<PlaceLine>): void =>
    set(lines.map((line, at) => (at === index ? { ...line, ...part } : line)));
  return (
    <fieldset className="bw-form-group">
      <legend>Places</legend>
      <p className="bw-second bw-small">
        Where things are put down between steps and outings. What lies at a final place at the end may stay there.
      </p>
      <RowsField
        what="Place"
        rows={lines}
        addLabel="Add a place"
        onAdd={() => set([...lines, { id: '' }])}
        onRemove={(index) => set(lines.filter((_, at) => at !== index))}
        hindered={({ was }) => placeHindered(was, steps)}
      >
        {({ id, name = '', final, was }, index) => (
          <>
            <TextField
              {...form.text(`placeLines.${index}`, `Place ${index + 1}, id`)}
              value={id}
              {...(was !== undefined && was !== id ? { description: `Until now “${was}”` } : {})}
              onChange={(text) => change(index, { id: text })}
            />
            <TextField
              {...form.text(`placeLines.${index}.name`, `Place ${index + 1}, name`)}
              value={name}
              optional
              onChange={(text) => change(index, { name: text })}
            />
            <YesNoField
              {...form.yesNo(`placeLines.${index}.final`, `Place ${index + 1}, final`)}
              value={final === true}
              onChange={(value) => change(index, { final: value === true })}
            />
          </>
        )}
      </RowsField>
    </fieldset>
  );
}
