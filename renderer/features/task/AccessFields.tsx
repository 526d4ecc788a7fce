import type { ReactNode } from 'react';
import { NumberField } from '../../components/Fields/NumberField.tsx';
import { QuantityField } from '../../components/QuantityField/QuantityField.tsx';
import { valueAt } from '../../components/RecordForm/draft.ts';
import type { RecordFormState } from '../../components/RecordForm/useRecordForm.ts';
import { ProfileFields } from './ProfileFields.tsx';

export interface AccessFieldsProps {
  form: RecordFormState;
  /** Path of the access in the record. */
  at: string;
  /** Before each label, where a form has two of them. */
  of?: string;
  note?: ReactNode;
  /** The hole may change its width on the way in. */
  stretches?: boolean;
}

/** The access of one head; nothing typed is no access of its own. */
export function AccessFields({ form, at, of: whose = '', note, stretches = false }: AccessFieldsProps) {
  const hasStretches = valueAt(form.draft, `${at}.profile`) !== undefined;
  const of = (field: string): string => `${at}.${field}`;
  const name = (label: string): string =>
    whose === '' ? label : `${whose}: ${label.charAt(0).toLowerCase()}${label.slice(1)}`;
  return (
    <>
      {note === undefined ? null : <p className="bw-second bw-small">{note}</p>}
      <div className="bw-form-grid">
        <QuantityField {...form.text(of('depth'), name('Depth to the head'))} kind="length" optional />
        <QuantityField
          {...form.text(of('clearDiameter'), name('Clear diameter'))}
          {...(hasStretches ? { description: 'From the last stretch on, down to the head' } : {})}
          kind="length"
          optional
        />
        <NumberField {...form.number(of('swingDeg'), name('Free swing (°)'))} optional />
        <QuantityField {...form.text(of('handleRadius'), name('Room for the handle, radius'))} kind="length" optional />
        <QuantityField {...form.text(of('protrusion'), name('Thread proud of the nut'))} kind="length" optional />
      </div>
      {stretches || hasStretches ? <ProfileFields form={form} at={at} what={name('Stretch')} /> : null}
    </>
  );
}
