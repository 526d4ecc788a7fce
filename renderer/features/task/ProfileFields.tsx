import { QuantityField } from '../../components/QuantityField/QuantityField.tsx';
import { valueAt } from '../../components/RecordForm/draft.ts';
import type { RecordFormState } from '../../components/RecordForm/useRecordForm.ts';
import { RowsField } from '../../components/RowsField/RowsField.tsx';

interface Stretch {
  to: string;
  clearDiameter: string;
}

/** How wide a hole is along its depth: from the mouth inwards, each stretch as far as it goes. */
export function ProfileFields({ form, at, what }: { form: RecordFormState; at: string; what: string }) {
  const path = `${at}.profile`;
  const kept = valueAt(form.draft, path);
  const rows = Array.isArray(kept) ? (kept as Stretch[]) : [];
  const set = (next: readonly Stretch[]): void => form.set(path, next.length === 0 ? undefined : next);
  const change = (index: number, field: keyof Stretch, value: string): void =>
    set(rows.map((row, place) => (place === index ? { ...row, [field]: value } : row)));
  return (
    <RowsField
      what={what}
      rows={rows}
      addLabel={rows.length === 0 ? 'Add stretch of another width' : 'Add stretch'}
      onAdd={() => set([...rows, { to: '', clearDiameter: '' }])}
      onRemove={(index) => set(rows.filter((_, place) => place !== index))}
    >
      {(row, index) => (
        <>
          <QuantityField
            {...form.text(`${path}.${index}.to`, `${what} ${index + 1}, from ${from(rows, index)} to`)}
            kind="length"
            value={row.to}
            onChange={(text) => change(index, 'to', text)}
          />
          <QuantityField
            {...form.text(`${path}.${index}.clearDiameter`, `${what} ${index + 1}, clear diameter`)}
            kind="length"
            value={row.clearDiameter}
            onChange={(text) => change(index, 'clearDiameter', text)}
          />
        </>
      )}
    </RowsField>
  );
}

const from = (rows: readonly Stretch[], index: number): string =>
  index === 0 ? 'the mouth' : (rows[index - 1]?.to ?? '') === '' ? 'there' : (rows[index - 1]?.to ?? '');
