import { useState } from 'react';
import { valueAt } from '../../components/RecordForm/draft.ts';
import type { RecordFormState } from '../../components/RecordForm/useRecordForm.ts';
import { FieldOf } from './FieldOf.tsx';
import type { FieldGroup as Group } from './itemFields.ts';

/** Some fields under one heading; folded ones open by themselves where one of them says something or is refused. */
export function FieldGroup({ form, group }: { form: RecordFormState; group: Group }) {
  const { title, fields, folded = false } = group;
  const [open, setOpen] = useState(() => fields.some(({ path }) => valueAt(form.draft, path) !== undefined));
  const refused = fields.some(({ path, label }) => form.text(path, label).error !== undefined);
  const grid = (
    <div className="bw-form-grid">
      {fields.map((field) => (
        <FieldOf key={field.path} form={form} field={field} />
      ))}
    </div>
  );
  if (!folded) {
    return (
      <fieldset className="bw-form-group">
        <legend>{title}</legend>
        {grid}
      </fieldset>
    );
  }
  return (
    <details
      className="bw-form-group"
      open={open || refused}
      onToggle={({ currentTarget }) => setOpen(currentTarget.open)}
    >
      <summary>{title}</summary>
      {grid}
    </details>
  );
}
