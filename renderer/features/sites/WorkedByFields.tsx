import { NumberField } from '../../components/Fields/NumberField.tsx';
import { TextField } from '../../components/Fields/TextField.tsx';
import { YesNoField } from '../../components/Fields/YesNoField.tsx';
import type { RecordFormState } from '../../components/RecordForm/useRecordForm.ts';
import { RowsField } from '../../components/RowsField/RowsField.tsx';
import { SeekField } from '../../components/SeekField/SeekField.tsx';
import type { Offer } from '../../components/SeekField/offersFor.ts';

interface Gear {
  id: string;
  quantity: number | string;
}

/** What works a coupling, connector, latch or cover: a hand or gear, how far it turns, how it is when it is done. No torque. */
export function WorkedByFields({ form, gear }: { form: RecordFormState; gear: readonly Offer[] }) {
  const kept = form.draft['gear'];
  const rows = Array.isArray(kept) ? (kept as Gear[]) : [];
  const set = (next: readonly Gear[]): void => form.set('gear', next.length === 0 ? undefined : next);
  const change = (index: number, fields: Partial<Gear>): void =>
    set(rows.map((row, at) => (at === index ? { ...row, ...fields } : row)));
  return (
    <fieldset className="bw-form-group">
      <legend>What works it</legend>
      <div className="bw-form-grid">
        <YesNoField {...form.yesNo('byHand', 'By hand')} description="Without any gear" optional />
        <NumberField
          {...form.number('quarterTurns', 'Quarter turns')}
          description="How far it turns; 4 are one whole turn"
          whole
          optional
        />
        <TextField
          {...form.text('desired', 'How it is when done')}
          description="In words, as “locked, both marks in line”"
          optional
        />
      </div>
      <RowsField
        what="Gear"
        rows={rows}
        addLabel="Add gear"
        onAdd={() => set([...rows, { id: '', quantity: 1 }])}
        onRemove={(index) => set(rows.filter((_, at) => at !== index))}
      >
        {(row, index) => (
          <>
            <SeekField
              {...form.text(`gear.${index}.id`, `Gear ${index + 1}`)}
              value={row.id}
              offers={gear}
              unknown="No gear of any shelf has this code"
              onChange={(id) => change(index, { id })}
            />
            <NumberField
              {...form.number(`gear.${index}.quantity`, `Gear ${index + 1}, quantity`)}
              value={row.quantity}
              whole
              onChange={(quantity) => change(index, { quantity: quantity ?? '' })}
            />
          </>
        )}
      </RowsField>
    </fieldset>
  );
}
