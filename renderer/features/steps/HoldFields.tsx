import type { TaskStep } from '../../../shared-types/records/task.ts';
import type { RecordFormState } from '../../components/RecordForm/useRecordForm.ts';
import { SeekField } from '../../components/SeekField/SeekField.tsx';
import { AccessFields } from '../task/AccessFields.tsx';
import type { StepOffers } from './stepOffers.ts';

/** The second piece held against turning; folded away where there is none. */
export function HoldFields({ form, step, offers }: { form: RecordFormState; step: TaskStep; offers: StepOffers }) {
  return (
    <details className="bw-form-group" open={step.hold !== undefined}>
      <summary>Held against turning{step.hold === undefined ? ': nothing' : ''}</summary>
      <div className="bw-form-grid">
        <SeekField
          {...form.text('hold.fastener', 'Held fastener')}
          description="Nut or head that a driver holds meanwhile"
          offers={offers.fasteners}
          unknown="No fastener of this task’s shelves has this code"
          optional
        />
      </div>
      <AccessFields form={form} at="hold.access" of="Hold" />
    </details>
  );
}
