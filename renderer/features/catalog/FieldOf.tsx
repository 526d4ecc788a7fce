import { ChoiceField } from '../../components/Fields/ChoiceField.tsx';
import { LinesField } from '../../components/Fields/LinesField.tsx';
import { NumberField } from '../../components/Fields/NumberField.tsx';
import { TextField } from '../../components/Fields/TextField.tsx';
import { YesNoField } from '../../components/Fields/YesNoField.tsx';
import { QuantityField } from '../../components/QuantityField/QuantityField.tsx';
import type { RecordFormState } from '../../components/RecordForm/useRecordForm.ts';
import type { ItemField } from './itemFields.ts';
import { StrengthFields } from './StrengthFields.tsx';

/** The field of a form that an item's field is typed in. */
export function FieldOf({ form, field }: { form: RecordFormState; field: ItemField }) {
  const { path, label, type, optional = false, description } = field;
  const common = { optional, ...(description === undefined ? {} : { description }) };
  switch (type.is) {
    case 'quantity':
      return <QuantityField {...form.text(path, label)} {...common} kind={type.of} />;
    case 'whole':
      return <NumberField {...form.number(path, label)} {...common} whole />;
    case 'number':
    case 'share':
      return <NumberField {...form.number(path, label)} {...common} />;
    case 'yes-no':
      return <YesNoField {...form.yesNo(path, label)} {...common} />;
    case 'choice':
      return <ChoiceField {...form.choice(path, label)} {...common} choices={type.choices} />;
    case 'lines':
      return <LinesField {...form.lines(path, label)} {...common} />;
    case 'strength':
      return <StrengthFields form={form} />;
    case 'day':
    case 'text':
      return <TextField {...form.text(path, label)} {...common} />;
    case 'long':
      return (
        <div className="bw-form-wide">
          <TextField {...form.text(path, label)} {...common} long />
        </div>
      );
  }
}
