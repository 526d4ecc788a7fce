import { useMemo, useRef } from 'react';
import type { Task, TaskOuting, TaskStep } from '../../../shared-types/records/task.ts';
import { ChoiceField } from '../../components/Fields/ChoiceField.tsx';
import { NumberField } from '../../components/Fields/NumberField.tsx';
import { TextField } from '../../components/Fields/TextField.tsx';
import { RecordForm } from '../../components/RecordForm/RecordForm.tsx';
import { useRecordForm } from '../../components/RecordForm/useRecordForm.ts';
import { overKept } from '../../store/overKept.ts';
import { useStore, useTable } from '../session/useStore.ts';
import { withPresent } from './choices.ts';
import { firstCode } from './freshCode.ts';
import { PlaceFields } from './PlaceFields.tsx';
import { ShelfChoice } from './ShelfChoice.tsx';
import { addTask, editTask, rolesIn } from './taskActs.ts';
import { draftOfTask, newShelfOf, renamedPlaces, taskChecks, taskOf } from './taskDraft.ts';

export interface TaskFormProps {
  /** The task as it is kept; null for a new one. */
  before: Task | null;
  /** Its steps; none for a new one. */
  steps: readonly TaskStep[];
  onSaved: (task: Task) => void;
  onLeave: () => void;
}

/** A task's own facts. */
export function TaskForm({ before, steps, onSaved, onLeave }: TaskFormProps) {
  const store = useStore();
  const tasks = useTable('tasks').rows;
  const sites = useTable('sites').rows;
  const shelfRows = useTable('shelves').rows;
  const shelves = useMemo(
    () => [...shelfRows.values()].toSorted((a, b) => a.name.localeCompare(b.name, 'en', { numeric: true })),
    [shelfRows],
  );
  const initial = useMemo(
    () => {
      if (before !== null) return draftOfTask(before);
      const [only] = shelves;
      return {
        id: store.newId(),
        rev: 0,
        code: firstCode('T-', new Set([...tasks.values()].map(({ code }) => code))),
        // With one shelf there is nothing to choose.
        shelves: shelves.length === 1 && only !== undefined ? [only.id] : [],
        ...(only === undefined ? { newShelf: 'Field kit' } : {}),
        roleText: 'Lead',
      };
    },
    // The form begins once; what changes meanwhile is found out by saving.
    // eslint-disable-next-line react-hooks/exhaustive-deps
    [],
  );
  const form = useRecordForm({
    initial,
    faultsOf: (draft) => taskChecks(draft, { tasks: tasks.values(), steps }),
    keepAs: before === null ? 'new-task' : `task-${before.id}`,
  });
  const saved = useRef<Task | null>(null);
  const chosen = Array.isArray(form.draft['shelves']) ? (form.draft['shelves'] as string[]) : [];
  const siteChoices = [...sites.values()]
    .map(({ id, code, name }) => ({ value: id, label: name === undefined ? code : `${code} · ${name}` }))
    .toSorted((a, b) => a.label.localeCompare(b.label, 'en', { numeric: true }));
  const site = form.choice('site', 'Site');
  const places = renamedPlaces(form.draft);
  const shelfField = form.text('shelves', 'Shelves');
  return (
    <RecordForm
      form={form}
      heading={before === null ? 'New task' : `Edit task ${before.code}`}
      saveLabel={before === null ? 'Add task' : 'Save task'}
      {...(places.size === 0 ? {} : { beforeSaving: 'Moves follow the new ids of the places.' })}
      save={async (over) => {
        const task = taskOf(form.draft);
        const roles = rolesIn(String(form.draft['roleText'] ?? ''));
        const outing: TaskOuting | null =
          before !== null || roles.length === 0
            ? null
            : { id: store.newId(), rev: 0, task: task.id, position: 1024, code: '1', roles, bags: [] };
        saved.current = task;
        const shelf = newShelfOf(form.draft, store.newId());
        await store.commit(
          overKept(
            before === null ? addTask(task, { outing, shelf }) : editTask(before, task, { steps, places }),
            over,
          ),
        );
      }}
      onSaved={() => {
        if (saved.current !== null) onSaved(saved.current);
      }}
      onLeave={onLeave}
    >
      <fieldset className="bw-form-group">
        <legend>The task</legend>
        <div className="bw-form-grid">
          <TextField {...form.text('name', 'Name')} description="As “Azimuth drive change”" />
          <TextField {...form.text('code', 'Code')} description="What people and papers call it" />
          {siteChoices.length === 0 && site.value === undefined ? null : (
            <ChoiceField {...site} choices={withPresent(siteChoices, site.value, 'not kept any more')} optional />
          )}
          {site.value !== undefined ? null : (
            <TextField
              {...form.text('siteText', 'Site in words')}
              description="Where no kept site is chosen"
              optional
            />
          )}
          <TextField {...form.text('crew', 'Crew')} optional />
          <NumberField
            {...form.number('rangePercent', 'Least share of a torque tool’s range (%)')}
            description="Below it no torque tool is set; empty: not limited"
            optional
          />
          {before !== null ? null : (
            <TextField
              {...form.text('roleText', 'Roles of the first outing')}
              description="With commas between, as “Lead, Second”; empty: no outing yet"
              optional
            />
          )}
          <div className="bw-form-wide">
            <TextField {...form.text('about', 'About')} long optional />
          </div>
        </div>
      </fieldset>
      <ShelfChoice
        id={shelfField.id}
        error={shelfField.error}
        shelves={shelves}
        value={chosen}
        onChange={(keys) => form.set('shelves', keys)}
      />
      {before !== null ? null : (
        <TextField
          {...form.text('newShelf', 'A new shelf for it')}
          description="By its name; empty: no new shelf"
          optional
        />
      )}
      <PlaceFields form={form} steps={steps} />
    </RecordForm>
  );
}
