import type { Interface } from '../../../shared-types/records/site.ts';
import type { Task, TaskStep } from '../../../shared-types/records/task.ts';
import { ChoiceField } from '../../components/Fields/ChoiceField.tsx';
import { NumberField } from '../../components/Fields/NumberField.tsx';
import { TextField } from '../../components/Fields/TextField.tsx';
import type { RecordFormState } from '../../components/RecordForm/useRecordForm.ts';
import { SeekField } from '../../components/SeekField/SeekField.tsx';
import { withPresent } from '../task/choices.ts';
import type { SiteRows } from '../task/useTaskRows.ts';
import type { Filled } from './fromInterface.ts';
import type { StepOffers } from './stepOffers.ts';
import { actionWords } from './stepTexts.ts';

export interface WhatFieldsProps {
  form: RecordFormState;
  step: TaskStep;
  /** The interface the step acts on. */
  at: Interface | undefined;
  filled: Filled;
  task: Task;
  sites: SiteRows;
  offers: StepOffers;
}

const actions = (['tighten', 'loosen', 'use'] as const).map((value) => ({ value, label: actionWords[value] }));

/** Interfaces of the task's site; of every site where the task names none that is kept. */
function interfaceChoices({ site }: Task, { sites, interfaces }: SiteRows): { value: string; label: string }[] {
  const own = [...interfaces.values()].filter((one) => site === undefined || one.site === site);
  const called = ({ code, name, count, site: of }: Interface): string => {
    const where = site === undefined ? `${sites.get(of)?.code ?? 'no site'} · ` : '';
    return `${where}${code}${name === undefined ? '' : ` · ${name}`}, ${count} ×`;
  };
  return own
    .map((one) => ({ value: one.id, label: called(one) }))
    .toSorted((a, b) => a.label.localeCompare(b.label, 'en', { numeric: true }));
}

/** What is done, and on what. */
export function WhatFields({ form, step, at, filled, task, sites, offers }: WhatFieldsProps) {
  const interfaces = withPresent(interfaceChoices(task, sites), step.interface, 'not kept any more');
  const from = at === undefined ? '' : `From interface ${at.code}`;
  const some = at !== undefined && step.positions !== undefined && step.count === undefined;
  return (
    <fieldset className="bw-form-group">
      <legend>What is done</legend>
      <div className="bw-form-grid">
        <TextField
          {...form.text('name', 'Name')}
          description="As the list calls it: “Torque B1–B12, final pass”"
          optional
        />
        <ChoiceField {...form.choice<TaskStep['action']>('action', 'Action')} choices={actions} />
        {interfaces.length === 0 ? null : (
          <ChoiceField
            {...form.choice('interface', 'Interface')}
            description="Gives fastener, count and access where nothing else is typed"
            choices={interfaces}
            optional
          />
        )}
        <TextField
          {...form.text('positions', 'Positions')}
          description="Which of them, as “1–6” or “upper row”"
          optional
        />
        <SeekField
          {...form.text('fastener', 'Fastener')}
          description={filled.given.has('fastener') ? `${from}: ${filled.fastener}` : 'Code, or words of it'}
          offers={offers.fasteners}
          unknown="No fastener of this task’s shelves has this code"
          optional={step.action === 'use' || filled.given.has('fastener')}
        />
        <NumberField
          {...form.number('count', 'Count')}
          whole
          optional
          {...(filled.given.has('count') ? { description: `${from}: ${filled.count}` } : {})}
          {...(some ? { description: 'Of how many positions it is, only the step can say' } : {})}
        />
      </div>
    </fieldset>
  );
}
