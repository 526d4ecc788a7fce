import { useMemo, useRef } from 'react';
import type { Item } from '../../../../shared-types/records/item.ts';
import type { Task, TaskStep } from '../../../../shared-types/records/task.ts';
import { ChoiceField } from '../../../components/Fields/ChoiceField.tsx';
import type { Draft } from '../../../components/RecordForm/draft.ts';
import { RecordForm } from '../../../components/RecordForm/RecordForm.tsx';
import { useRecordForm } from '../../../components/RecordForm/useRecordForm.ts';
import type { UnitsShown } from '../../../engine/units/index.ts';
import { overKept } from '../../../store/overKept.ts';
import { useStore } from '../../session/useStore.ts';
import { withPresent } from '../../task/choices.ts';
import type { SiteRows } from '../../task/useTaskRows.ts';
import type { TaskRows } from '../stepActs.ts';
import { offersOf } from '../stepOffers.ts';
import { stepName } from '../stepTexts.ts';
import { countOf } from '../words.ts';
import { OfferedSteps } from './OfferedSteps.tsx';
import { actOfOffered, beforeAfterText, faultsOfOffered, faultyKeys, placesText, withEdits } from './offeredSteps.ts';
import type { Offered } from './offeredSteps.ts';
import { Tick } from './Tick.tsx';
import { interfaceCalled, interfacesOf, offeredBy, touchedOf, usualDraft, usualFaults } from './usualAsked.ts';
import { UsualFiguresFields } from './UsualFigures.tsx';
import { UsualThings } from './UsualThings.tsx';

export interface UsualStepsFormProps {
  task: Task;
  rows: TaskRows;
  stock: readonly Item[];
  sites: SiteRows;
  /** The step in hand: outing, role and interface begin as its. */
  like: TaskStep | null;
  number: number | null;
  units: UnitsShown;
  leaveAsked: number;
  onStay: () => void;
  onSaved: (steps: readonly TaskStep[]) => void;
  onLeave: () => void;
}

const ways = [
  { value: 'both', label: 'Off and on again' },
  { value: 'off', label: 'Taking it off' },
  { value: 'on', label: 'Putting it on' },
] as const;
const orders = [
  { value: 'thing', label: 'One thing done, then the next' },
  { value: 'part', label: 'Each part of the work over all of them' },
] as const;

function beginning({ rows, like, sites }: Pick<UsualStepsFormProps, 'rows' | 'like' | 'sites'>): Draft {
  const [first] = rows.outings;
  const outing = like?.outing ?? first?.code;
  const role = like?.role ?? first?.roles[0];
  const at = like?.interface;
  return {
    ...{ ways: 'both', order: 'thing', place: like === null ? 'end' : 'after' },
    ...(outing === undefined ? {} : { outing }),
    ...(role === undefined ? {} : { role }),
    ...(at === undefined || !sites.interfaces.has(at) ? {} : { interfaces: { [at]: 'yes' } }),
    ...(at === undefined && like?.fastener !== undefined ? { fastener: like.fastener } : {}),
    ...(at === undefined && like?.fastener !== undefined && like.count !== undefined ? { count: like.count } : {}),
  };
}

/** Steps that the trade usually does on an interface, made from a few figures, shown before they are added; one act. */
export function UsualStepsForm(props: UsualStepsFormProps) {
  const { task, rows, stock, sites, like, number, units, leaveAsked, onStay, onSaved, onLeave } = props;
  const store = useStore();
  const initial = useMemo(
    () => beginning({ rows, like, sites }),
    // The form begins once.
    // eslint-disable-next-line react-hooks/exhaustive-deps
    [],
  );
  const interfaces = useMemo(() => interfacesOf(task, sites), [task, sites]);
  const offers = useMemo(() => offersOf(stock), [stock]);
  const made = (of: Draft) => {
    const draft = usualDraft(of);
    const touched = touchedOf(draft, interfaces, stock);
    const offered = offeredBy(draft, touched).map((one): Offered => ({ ...one, isAdded: one.isUsual, asks: [] }));
    return { touched, offered: withEdits(of, offered) };
  };
  const faultsIn = (of: Draft) => {
    const { touched, offered } = made(of);
    const asked = usualFaults(usualDraft(of), touched);
    // What is wrong with a figure is wrong in every step that takes it: it is said once.
    return asked.length > 0 ? asked : faultsOfOffered(offered);
  };
  const form = useRecordForm({ initial, faultsOf: faultsIn, keepAs: `usual-steps-of-${task.id}` });
  const draft = usualDraft(form.draft);
  const { touched, offered } = made(form.draft);
  const after = draft.place === 'after' && like?.outing === draft.outing ? (like?.id ?? null) : null;
  const title = (count: number): string =>
    `Add ${countOf(count, 'usual step')} for ${touched.map(({ called }) => called).join(', ')}`;
  const places = placesText(offered);
  const shown = useMemo(
    () => actOfOffered(rows, offered, { task: task.id, after, title, newId: (key) => `new ${key}` }),
    // Numbers follow from the places alone; names and figures are read where the steps are kept.
    // eslint-disable-next-line react-hooks/exhaustive-deps
    [rows, places, after, task.id],
  );
  const saved = useRef<readonly TaskStep[]>([]);
  const roles = rows.outings.find(({ code }) => code === draft.outing)?.roles ?? [];
  const faulty = form.asked === 0 ? new Set<string>() : faultyKeys(faultsIn(form.draft));
  const count = shown.steps.length;

  return (
    <RecordForm
      form={form}
      heading="Add usual steps"
      saveLabel={count === 0 ? 'Add the steps' : `Add ${countOf(count, 'step')}`}
      save={async (over) => {
        const kept = actOfOffered(rows, offered, { task: task.id, after, title, newId: store.newId });
        saved.current = kept.steps;
        await store.commit(overKept(kept.act, over));
      }}
      onSaved={() => onSaved(saved.current)}
      onLeave={onLeave}
      leaveAsked={leaveAsked}
      onStay={onStay}
    >
      <fieldset className="bw-form-group">
        <legend>For what</legend>
        {interfaces.length === 0 ? null : (
          <div role="group" aria-label="Interfaces" className="bw-offered-things">
            {interfaces.map((one) => (
              <Tick
                key={one.id}
                checked={draft.interfaces?.[one.id] === 'yes'}
                onChange={(checked) =>
                  form.set('interfaces', { ...draft.interfaces, [one.id]: checked ? 'yes' : 'no' })
                }
              >
                {interfaceCalled(one)}, {one.count} ×
              </Tick>
            ))}
          </div>
        )}
        <UsualThings form={form} offers={offers} hasInterfaces={interfaces.length > 0} />
      </fieldset>
      <fieldset className="bw-form-group">
        <legend>Which work, by whom</legend>
        <div className="bw-form-grid">
          <ChoiceField {...form.choice('ways', 'Work')} choices={ways} />
          {touched.length < 2 ? null : <ChoiceField {...form.choice('order', 'Order')} choices={orders} />}
          <ChoiceField
            {...form.choice('outing', 'Outing')}
            choices={withPresent(
              rows.outings.map(({ code, name }) => ({
                value: code,
                label: name === undefined ? code : `${code} · ${name}`,
              })),
              draft.outing,
              'no outing of this task',
            )}
          />
          <ChoiceField
            {...form.choice('role', 'Role')}
            choices={withPresent(
              roles.map((role) => ({ value: role, label: role })),
              draft.role,
              'no role of this outing',
            )}
          />
          {like === null || like.outing !== draft.outing ? null : (
            <ChoiceField
              {...form.choice('place', 'Where')}
              choices={[
                { value: 'after', label: `After step ${number ?? ''} · ${stepName(like)}` },
                { value: 'end', label: 'At the end of the outing' },
              ]}
            />
          )}
        </div>
      </fieldset>
      <UsualFiguresFields form={form} touched={touched} task={task} stock={stock} offers={offers} />
      <OfferedSteps
        form={form}
        offered={offered}
        numberOf={(key) => shown.numbers.get(`new ${key}`)}
        said={beforeAfterText(rows, shown)}
        offers={offers}
        faulty={faulty}
        units={units}
      />
    </RecordForm>
  );
}
