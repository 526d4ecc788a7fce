import { useMemo, useRef } from 'react';
import type { Item } from '../../../shared-types/records/item.ts';
import type { Task, TaskOuting } from '../../../shared-types/records/task.ts';
import { NumberField } from '../../components/Fields/NumberField.tsx';
import { TextField } from '../../components/Fields/TextField.tsx';
import { RecordForm } from '../../components/RecordForm/RecordForm.tsx';
import { useRecordForm } from '../../components/RecordForm/useRecordForm.ts';
import { RowsField } from '../../components/RowsField/RowsField.tsx';
import { SeekField } from '../../components/SeekField/SeekField.tsx';
import { overKept } from '../../store/overKept.ts';
import { useStore } from '../session/useStore.ts';
import { firstCode } from '../task/freshCode.ts';
import { addOuting, editOuting, outingCalled, stepsOn } from './outingActs.ts';
import type { OutingRows } from './outingActs.ts';
import { bagsOf, draftOfOuting, outingChecks, outingOf, renamedRoles } from './outingDraft.ts';
import { RoleFields } from './RoleFields.tsx';
import { roleLinesOf } from './roleLines.ts';

export interface OutingFormProps {
  task: Task;
  rows: OutingRows;
  stock: readonly Item[];
  /** The outing as it is kept; null for a new one. */
  before: TaskOuting | null;
  leaveAsked: number;
  onStay: () => void;
  onSaved: (outing: TaskOuting) => void;
  onLeave: () => void;
}

/** A new outing takes over the roles of the last one: the crew is mostly the same. */
function newOuting(id: string, task: Task, { outings }: OutingRows): TaskOuting {
  const taken = new Set(outings.map(({ code }) => code));
  const roles = outings.at(-1)?.roles ?? ['Lead'];
  return { id, rev: 0, task: task.id, position: 0, code: firstCode('', taken), roles: [...roles], bags: [] };
}

export function OutingForm(props: OutingFormProps) {
  const { task, rows, stock, before, leaveAsked, onStay, onSaved, onLeave } = props;
  const store = useStore();
  const initial = useMemo(
    () => {
      const draft = draftOfOuting(before ?? newOuting(store.newId(), task, rows));
      // Of a new outing every role is a new one.
      return before === null ? { ...draft, roleLines: roleLinesOf(draft).map(({ name }) => ({ name })) } : draft;
    },
    // The form begins once; what changes meanwhile is found out by saving.
    // eslint-disable-next-line react-hooks/exhaustive-deps
    [],
  );
  const form = useRecordForm({
    initial,
    faultsOf: (draft) => outingChecks(draft, rows, before),
    keepAs: before === null ? `outing-of-${task.id}` : `outing-${before.id}`,
  });
  const saved = useRef<TaskOuting | null>(null);
  const bags = bagsOf(form.draft);
  const setBags = (codes: readonly string[]): void => form.set('bags', codes);
  const onOuting = before === null ? [] : stepsOn(rows, before);
  const renamed = renamedRoles(form.draft);
  const following = onOuting.filter(
    ({ role }) => renamed.has(role) || (before !== null && outingOf(form.draft).code !== before.code),
  );
  const offers = useMemo(
    () =>
      stock.flatMap((item) =>
        item.kind === 'bag'
          ? [
              {
                code: item.code,
                words: [item.name, item.massMax === undefined ? null : `up to ${item.massMax}`]
                  .filter(Boolean)
                  .join(', '),
              },
            ]
          : [],
      ),
    [stock],
  );
  return (
    <RecordForm
      form={form}
      heading={before === null ? 'Add an outing' : `Edit ${outingCalled(before)}`}
      saveLabel={before === null ? 'Add outing' : 'Save outing'}
      {...(following.length === 0
        ? {}
        : {
            beforeSaving: `${following.length === 1 ? '1 step follows' : `${following.length} steps follow`} the new name.`,
          })}
      save={async (over) => {
        const outing = outingOf(form.draft);
        const act = before === null ? addOuting(rows, outing) : editOuting(rows, before, outing, renamed);
        saved.current = outing;
        await store.commit(overKept(act, over));
      }}
      onSaved={() => {
        if (saved.current !== null) onSaved(saved.current);
      }}
      onLeave={onLeave}
      leaveAsked={leaveAsked}
      onStay={onStay}
    >
      <fieldset className="bw-form-group">
        <legend>The outing</legend>
        <div className="bw-form-grid">
          <TextField {...form.text('name', 'Name')} description="As “strip and fit”" optional />
          <TextField {...form.text('code', 'Code')} description="Its steps are found by it" />
          <NumberField
            {...form.number('minutesMax', 'At most out (min)')}
            description="Daylight, air, battery"
            optional
          />
          <NumberField
            {...form.number('turnBack', 'Way home (min)')}
            description="Kept free at the end: says by when to turn back"
            optional
          />
          <TextField {...form.text('notes', 'Notes')} long optional />
        </div>
      </fieldset>
      <RoleFields form={form} onOuting={onOuting} />
      <fieldset className="bw-form-group">
        <legend>Bags</legend>
        <RowsField
          what="Bag"
          rows={bags}
          addLabel="Add a bag"
          onAdd={() => setBags([...bags, ''])}
          onRemove={(index) => setBags(bags.filter((_, at) => at !== index))}
        >
          {(code, index) => (
            <SeekField
              {...form.text(`bags.${index}`, `Bag ${index + 1}`)}
              value={code}
              offers={offers}
              unknown="No bag of this task’s shelves has this code"
              onChange={(text) => setBags(bags.map((one, at) => (at === index ? text : one)))}
            />
          )}
        </RowsField>
      </fieldset>
    </RecordForm>
  );
}
