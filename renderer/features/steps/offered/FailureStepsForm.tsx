import { useMemo, useRef } from 'react';
import type { Item } from '../../../../shared-types/records/item.ts';
import type { Task, TaskStep } from '../../../../shared-types/records/task.ts';
import { Assumed } from '../../../components/Assumed/Assumed.tsx';
import type { Draft } from '../../../components/RecordForm/draft.ts';
import { RecordForm } from '../../../components/RecordForm/RecordForm.tsx';
import { useRecordForm } from '../../../components/RecordForm/useRecordForm.ts';
import { cautionLead, cautionShort } from '../../../engine/caution.ts';
import { failures, failureSteps } from '../../../engine/usualSteps/index.ts';
import type { Failure } from '../../../engine/usualSteps/index.ts';
import type { UnitsShown } from '../../../engine/units/index.ts';
import { overKept } from '../../../store/overKept.ts';
import { useStore } from '../../session/useStore.ts';
import type { SiteRows } from '../../task/useTaskRows.ts';
import { filledFrom } from '../fromInterface.ts';
import type { TaskRows } from '../stepActs.ts';
import { offersOf } from '../stepOffers.ts';
import { stepCalled, stepName } from '../stepTexts.ts';
import { countOf } from '../words.ts';
import { OfferedSteps } from './OfferedSteps.tsx';
import { actOfOffered, beforeAfterText, faultsOfOffered, faultyKeys, placesText, withEdits } from './offeredSteps.ts';
import type { Offered } from './offeredSteps.ts';
import { Tick } from './Tick.tsx';
import { interfaceCalled } from './usualAsked.ts';

export interface FailureStepsFormProps {
  task: Task;
  rows: TaskRows;
  stock: readonly Item[];
  sites: SiteRows;
  /** The steps that may fail, with their numbers. */
  steps: readonly { step: TaskStep; number: number }[];
  units: UnitsShown;
  leaveAsked: number;
  onStay: () => void;
  onSaved: (steps: readonly TaskStep[]) => void;
  onLeave: () => void;
}

const failureLabels: Record<Failure, string> = {
  stuck: 'Stuck: penetrant, wait, breaker bar, extractor',
  'cross-threaded': 'Cross-threaded: back off, chase',
  sheared: 'Sheared: rest out, a new one in',
  lost: 'Lost: a substitute',
};

/** What the names of the steps call what may fail: one of the interface, or of the fastener, or the step's own. */
function calledOf(step: TaskStep, { stock, sites }: Pick<FailureStepsFormProps, 'stock' | 'sites'>): string {
  const at = sites.interfaces.get(step.interface ?? '');
  if (at !== undefined) return `one of ${interfaceCalled(at)}`;
  const { fastener } = filledFrom(step, at);
  const item = stock.find((one) => one.code === fastener);
  return fastener === undefined ? `what is in hand in ${stepName(step)}` : `one of ${item?.name ?? fastener}`;
}

/** What is done if a step fails, by what goes wrong; tied to the step and listed under it; one act. */
export function FailureStepsForm(props: FailureStepsFormProps) {
  const { task, rows, stock, steps, units, leaveAsked, onStay, onSaved, onLeave } = props;
  const store = useStore();
  const offers = useMemo(() => offersOf(stock), [stock]);
  const [first] = steps;
  const initial = useMemo(
    (): Draft => ({ hows: { [first?.step.action === 'tighten' ? 'cross-threaded' : 'stuck']: 'yes' } }),
    [first],
  );
  const howsOf = (of: Draft): Failure[] => {
    const hows = (of['hows'] ?? {}) as Partial<Record<Failure, string>>;
    return failures.filter((how) => hows[how] === 'yes');
  };
  const made = (of: Draft): Offered[] =>
    withEdits(
      of,
      steps.flatMap(({ step }) =>
        failureSteps(step, calledOf(step, props), howsOf(of)).map((one): Offered => ({ ...one, isAdded: true })),
      ),
    );
  const faultsIn = (of: Draft) => faultsOfOffered(made(of));
  const keepAs = `failure-steps-of-${steps.map(({ step }) => step.id).join(' ')}`;
  const form = useRecordForm({ initial, faultsOf: faultsIn, keepAs: keepAs.slice(0, 200) });
  const offered = made(form.draft);
  const hows = howsOf(form.draft);
  const what =
    steps.length === 1 && first !== undefined ? stepCalled(first.step, first.number) : countOf(steps.length, 'step');
  const title = (count: number): string =>
    `Add ${countOf(count, 'step')} done if ${what} fail${steps.length === 1 ? 's' : ''}`;
  const places = placesText(offered);
  const shown = useMemo(
    () => actOfOffered(rows, offered, { task: task.id, after: null, title, newId: (key) => `new ${key}` }),
    // Numbers follow from the places alone; names and figures are read where the steps are kept.
    // eslint-disable-next-line react-hooks/exhaustive-deps
    [rows, places, task.id],
  );
  const saved = useRef<readonly TaskStep[]>([]);
  const faulty = form.asked === 0 ? new Set<string>() : faultyKeys(faultsIn(form.draft));
  const stepOfKey = (one: Offered) => steps.find(({ step }) => step.code === one.step.ifFails?.step);

  return (
    <RecordForm
      form={form}
      heading={`What is done if ${what} fail${steps.length === 1 ? 's' : ''}`}
      saveLabel={shown.steps.length === 0 ? 'Add the steps' : `Add ${countOf(shown.steps.length, 'step')}`}
      save={async (over) => {
        const kept = actOfOffered(rows, offered, { task: task.id, after: null, title, newId: store.newId });
        saved.current = kept.steps;
        await store.commit(overKept(kept.act, over));
      }}
      onSaved={() => onSaved(saved.current)}
      onLeave={onLeave}
      leaveAsked={leaveAsked}
      onStay={onStay}
    >
      <fieldset className="bw-form-group">
        <legend>What may go wrong</legend>
        <div role="group" aria-label="What may go wrong" className="bw-offered-things">
          {failures.map((how) => (
            <Tick
              key={how}
              checked={hows.includes(how)}
              onChange={(checked) => form.set(`hows.${how}`, checked ? 'yes' : 'no')}
            >
              {failureLabels[how]}
            </Tick>
          ))}
        </div>
        <Assumed
          what={[
            'the ways below are common practice, no source: the approved procedure governs. Figures are asked for, none is made up.',
          ]}
        />
        <p className="bw-second bw-small">
          {cautionLead} {cautionShort}
        </p>
      </fieldset>
      <OfferedSteps
        form={form}
        offered={offered}
        numberOf={(key) => shown.numbers.get(`new ${key}`)}
        said={beforeAfterText(rows, shown)}
        offers={offers}
        faulty={faulty}
        units={units}
        {...(steps.length === 1
          ? {}
          : {
              headingOf: (one: Offered) => {
                const of = stepOfKey(one);
                return of === undefined ? '' : `Under step ${of.number} · ${stepName(of.step)}`;
              },
            })}
      />
    </RecordForm>
  );
}
