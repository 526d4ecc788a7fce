import type { TaskStep } from '../../../shared-types/records/task.ts';
import { ChoiceField } from '../../components/Fields/ChoiceField.tsx';
import { NumberField } from '../../components/Fields/NumberField.tsx';
import { TextField } from '../../components/Fields/TextField.tsx';
import type { RecordFormState } from '../../components/RecordForm/useRecordForm.ts';
import { SeekField } from '../../components/SeekField/SeekField.tsx';
import { withPresent } from '../task/choices.ts';
import type { TaskRows } from './stepActs.ts';
import { actionWords, failureWords, stepName } from './stepTexts.ts';

export interface WhoFieldsProps {
  form: RecordFormState;
  step: TaskStep;
  rows: TaskRows;
}

const failures = (['stuck', 'cross-threaded', 'sheared', 'lost', 'other'] as const).map((value) => ({
  value,
  label: failureWords[value],
}));
const courses = [
  { value: 'no', label: 'In the course of the outing' },
  { value: 'yes', label: 'Only if a step fails' },
] as const;

/** On which outing, by whom, how long; and whether it is done at all. */
export function WhoFields({ form, step, rows }: WhoFieldsProps) {
  const outings = rows.outings.map(({ code, name }) => ({
    value: code,
    label: name === undefined ? code : `${code} · ${name}`,
  }));
  const roles = rows.outings.find(({ code }) => code === step.outing)?.roles ?? [];
  const slots = [
    ...new Set(rows.steps.flatMap(({ outing, slot }) => (outing === step.outing && slot !== undefined ? [slot] : []))),
  ];
  const others = rows.steps.filter(({ id }) => id !== step.id);
  const contingency = form.yesNo('contingency', 'When');
  return (
    <fieldset className="bw-form-group">
      <legend>Where, by whom, when</legend>
      <div className="bw-form-grid">
        <ChoiceField
          {...form.choice('outing', 'Outing')}
          choices={withPresent(outings, step.outing, 'no outing of this task')}
          {...(outings.length === 0
            ? { description: 'This task has no outing yet: add one on the sheet Outings' }
            : {})}
        />
        <ChoiceField
          {...form.choice('role', 'Role')}
          choices={withPresent(
            roles.map((role) => ({ value: role, label: role })),
            step.role,
            'no role of this outing',
          )}
        />
        <TextField
          {...form.text('slot', 'Slot')}
          description="Steps of one slot and other roles run at once"
          offered={slots}
          optional
        />
        <NumberField {...form.number('minutes', 'Time (min)')} optional />
        <ChoiceField
          {...contingency}
          value={contingency.value === true ? 'yes' : 'no'}
          choices={courses}
          onChange={(value) => form.set('contingency', value === 'yes' ? true : undefined)}
        />
        {step.contingency !== true ? null : (
          <>
            <SeekField
              {...form.text('ifFails.step', 'For step')}
              description="It stands under that step"
              offers={others.map((other) => ({
                code: other.code,
                words: `${stepName(other)}, ${actionWords[other.action].toLowerCase()}`,
              }))}
              unknown="No step of this task has this code"
              optional
              onChange={(text) =>
                form.set('ifFails', text === '' ? undefined : { how: 'stuck', ...step.ifFails, step: text })
              }
            />
            <ChoiceField
              {...form.choice<NonNullable<TaskStep['ifFails']>['how']>('ifFails.how', 'When it is')}
              choices={failures}
              {...(step.ifFails === undefined ? { description: 'Say first for which step' } : {})}
            />
          </>
        )}
      </div>
    </fieldset>
  );
}
