import { NumberField } from '../../../components/Fields/NumberField.tsx';
import type { RecordFormState } from '../../../components/RecordForm/useRecordForm.ts';
import { SeekField } from '../../../components/SeekField/SeekField.tsx';
import type { StepOffers } from '../stepOffers.ts';

export interface UsualThingsProps {
  form: RecordFormState;
  offers: StepOffers;
  hasInterfaces: boolean;
}

/** Fasteners that are no interface of the site, or not yet. */
export function UsualThings({ form, offers, hasInterfaces }: UsualThingsProps) {
  return (
    <div className="bw-form-grid">
      <SeekField
        {...form.text('fastener', hasInterfaces ? 'Fasteners that are no interface' : 'Fastener')}
        description="Code, or words of it"
        offers={offers.fasteners}
        unknown="No fastener of this task’s shelves has this code"
        optional={hasInterfaces}
      />
      <NumberField {...form.number('count', 'How many of them')} whole optional />
    </div>
  );
}
