import type { Item } from '../../../../shared-types/records/item.ts';
import type { Task, TaskStep } from '../../../../shared-types/records/task.ts';
import { Assumed } from '../../../components/Assumed/Assumed.tsx';
import { ChoiceField } from '../../../components/Fields/ChoiceField.tsx';
import { TextField } from '../../../components/Fields/TextField.tsx';
import { YesNoField } from '../../../components/Fields/YesNoField.tsx';
import { QuantityField } from '../../../components/QuantityField/QuantityField.tsx';
import type { RecordFormState } from '../../../components/RecordForm/useRecordForm.ts';
import { SeekField } from '../../../components/SeekField/SeekField.tsx';
import { cautionLead, cautionShort } from '../../../engine/caution.ts';
import { inTheBag } from '../../../engine/plan/resolveCourse.ts';
import type { Touched } from '../../../engine/usualSteps/index.ts';
import type { StepOffers } from '../stepOffers.ts';
import { TakeTorque } from '../TakeTorque.tsx';
import { usualDraft } from './usualAsked.ts';

export interface UsualFiguresProps {
  form: RecordFormState;
  touched: readonly Touched[];
  task: Task;
  stock: readonly Item[];
  offers: StepOffers;
}

const unknownGear = 'No gear of this task’s shelves has this code';

/** The thread of what is touched, where all of it has the same. */
function threadOf(touched: readonly Touched[], stock: readonly Item[]): string | undefined {
  const threads = touched.map(({ fastener }) => {
    const item = stock.find((one) => one.kind === 'fastener' && one.code === fastener);
    return item?.kind === 'fastener' ? item.thread : undefined;
  });
  return threads.every((thread) => thread === threads[0]) ? threads[0] : undefined;
}

/** The figures that the steps take. None is made up: a step whose figure is not typed is added without it. */
export function UsualFiguresFields({ form, touched, task, stock, offers }: UsualFiguresProps) {
  const draft = usualDraft(form.draft);
  const ways = draft.ways ?? 'both';
  if (!touched.some(({ fastener }) => fastener !== undefined)) return null;
  const step = { ...form.draft, task: task.id } as unknown as TaskStep;
  return (
    <fieldset className="bw-form-group">
      <legend>Figures, the same for all of them</legend>
      <Assumed
        what={[
          'the order of the work below is common practice, no source: the approved procedure governs where it differs.',
          'a figure that is left open stays open in its step, which then says what it needs; none is made up.',
        ]}
      />
      <p className="bw-second bw-small">
        {cautionLead} {cautionShort}
      </p>
      {ways === 'on' ? null : (
        <div className="bw-form-grid">
          <QuantityField
            {...form.text('demand', 'Torque to bear when loosening')}
            kind="torque"
            description="Every part and the driver must bear it"
            optional
          />
          <ChoiceField
            {...form.choice('takenTo', 'Taken out, they go')}
            choices={[
              { value: inTheBag, label: 'into the bags and pouches' },
              ...task.places.map(({ id, name }) => ({ value: id, label: `to ${name ?? id}` })),
            ]}
            optional
          />
        </div>
      )}
      {ways === 'off' ? null : (
        <div className="bw-form-grid">
          <TakeTorque form={form} step={step} thread={threadOf(touched, stock)} />
          <QuantityField {...form.text('callout.min', 'Callout, from')} kind="torque" optional />
          <QuantityField {...form.text('callout.max', 'Callout, to')} kind="torque" optional />
          <TextField
            {...form.text('calloutSource', 'Source of the callout')}
            description="Document, table, page"
            optional
          />
          <TextField
            {...form.text('shares', 'Passes, shares of the callout')}
            description="As “50 %, 75 %, 100 %”; the whole callout is the final pass"
            optional
          />
          <TextField
            {...form.text('snug', 'Snug, share of the callout')}
            description="As “20 %”; without it no snug step is added"
            optional
          />
          <QuantityField {...form.text('running.min', 'Running torque, from')} kind="torque" optional />
          <QuantityField {...form.text('running.max', 'Running torque, to')} kind="torque" optional />
          <YesNoField
            {...form.yesNo('runningIncluded', 'Running torque is in the callout')}
            description="Not said counts as yes"
            optional
          />
          <QuantityField {...form.text('check.min', 'Verification torque, from')} kind="torque" optional />
          <QuantityField {...form.text('check.max', 'Verification torque, to')} kind="torque" optional />
          <TextField {...form.text('checkSource', 'Source of the verification torque')} optional />
          <SeekField {...form.text('lubricant', 'Lubricant')} offers={offers.gear} unknown={unknownGear} optional />
          <SeekField
            {...form.text('marker', 'Marker for the stripe')}
            offers={offers.gear}
            unknown={unknownGear}
            optional
          />
        </div>
      )}
    </fieldset>
  );
}
