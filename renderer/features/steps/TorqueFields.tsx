import type { TaskStep } from '../../../shared-types/records/task.ts';
import { LinesField } from '../../components/Fields/LinesField.tsx';
import { TextField } from '../../components/Fields/TextField.tsx';
import { YesNoField } from '../../components/Fields/YesNoField.tsx';
import { QuantityField } from '../../components/QuantityField/QuantityField.tsx';
import type { RecordFormState } from '../../components/RecordForm/useRecordForm.ts';
import { calloutQuery } from './calloutQuery.ts';
import { TakeTorque } from './TakeTorque.tsx';

export interface TorqueFieldsProps {
  form: RecordFormState;
  step: TaskStep;
  /** Thread of the step's fastener, where it is known. */
  thread: string | undefined;
}

/** What the action asks for; what else is kept of it stays to be seen. */
export function TorqueFields({ form, step, thread }: TorqueFieldsProps) {
  const query = calloutQuery(step.callout, thread);
  const tightens =
    step.action === 'tighten' ||
    step.callout !== undefined ||
    step.running !== undefined ||
    step.passes !== undefined ||
    step.calloutSource !== undefined ||
    step.runningIncluded !== undefined;
  const loosens = step.action === 'loosen' || step.demand !== undefined;
  if (!tightens && !loosens) return null;
  return (
    <fieldset className="bw-form-group">
      <legend>Torque</legend>
      {!tightens ? null : (
        <div className="bw-form-grid">
          <TakeTorque form={form} step={step} thread={thread} />
          <QuantityField {...form.text('callout.min', 'Callout, from')} kind="torque" />
          <QuantityField {...form.text('callout.max', 'Callout, to')} kind="torque" />
          <p role="status" className="bw-form-wide bw-callout-query" data-query={query?.kind}>
            {query?.words}
          </p>
          <TextField
            {...form.text('calloutSource', 'Source of the callout')}
            description="Document, table, page"
            optional
          />
          <QuantityField {...form.text('running.min', 'Running torque, from')} kind="torque" optional />
          <QuantityField {...form.text('running.max', 'Running torque, to')} kind="torque" optional />
          <YesNoField
            {...form.yesNo('runningIncluded', 'Running torque is in the callout')}
            description="Not said counts as yes"
            optional
          />
          <LinesField
            {...form.lines('passes', 'Passes')}
            description="On the way to the callout: “50 %” or “30 lbf·ft”"
            optional
          />
        </div>
      )}
      {!loosens ? null : (
        <div className="bw-form-grid">
          <QuantityField
            {...form.text('demand', 'Torque to bear when loosening')}
            kind="torque"
            description="Every part and the driver must bear it"
          />
        </div>
      )}
    </fieldset>
  );
}
