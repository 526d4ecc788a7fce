import { useId, useState } from 'react';
import { Button, NativeSelect, TextInput } from '@mantine/core';
import type { Shelf } from '../../../shared-types/records/item.ts';
import type { Task } from '../../../shared-types/records/task.ts';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import { FieldErrors } from '../../components/FieldErrors/FieldErrors.tsx';
import '../../components/RecordForm/RecordForm.css';
import type { FieldError } from '../../components/FieldErrors/FieldErrors.tsx';
import { faultsOf } from '../../engine/records/faultsOf.ts';
import { freeName } from '../../engine/records/freeNames.ts';
import { useStore, useTable } from '../session/useStore.ts';
import { firstCode } from '../task/freshCode.ts';
import { useAct } from '../task/useAct.tsx';

export interface NewTaskDialogProps {
  onOpenTask: (id: string) => void;
  onClose: () => void;
}

const newShelf = '';

/** A task of one's own, with the shelf that it draws on. Steps and outings are added to it afterwards. */
export function NewTaskDialog({ onOpenTask, onClose }: NewTaskDialogProps) {
  const store = useStore();
  const tasks = useTable('tasks');
  const shelves = useTable('shelves');
  const { run, notice } = useAct();
  const field = useId();
  const taken = new Set([...tasks.rows.values()].map(({ code }) => code));
  const kept = [...shelves.rows.values()];
  const [name, setName] = useState('');
  const [code, setCode] = useState(() => firstCode('T-', taken));
  const [shelf, setShelf] = useState(newShelf);
  const [shelfName, setShelfName] = useState<string | null>(null);
  const [asked, setAsked] = useState(0);
  const [saving, setSaving] = useState(false);

  const shelfSaid =
    shelfName ??
    freeName(
      'Field kit',
      kept.map((one) => one.name),
    );
  const made: Shelf = { id: 'new', rev: 0, name: shelfSaid };
  const task: Task = { id: 'new', rev: 0, code, name, shelves: [], places: [] };
  const errors: FieldError[] = [
    ...faultsOf('tasks', task).map(({ path, message }) => ({
      field: `${field}-${path}`,
      message: `${path === 'name' ? 'Name' : 'Code'} ${message}`,
    })),
    ...(taken.has(code) ? [{ field: `${field}-code`, message: `Code "${code}" is another task’s already` }] : []),
    ...(shelf === newShelf
      ? faultsOf('shelves', made).map(({ message }) => ({
          field: `${field}-shelf-name`,
          message: `Name of the shelf ${message}`,
        }))
      : []),
  ];
  const errorAt = (at: string): string | undefined =>
    asked === 0 ? undefined : errors.find((error) => error.field === `${field}-${at}`)?.message;

  const save = async (): Promise<void> => {
    setAsked(asked + 1);
    if (errors.length > 0 || saving) return;
    setSaving(true);
    const shelfKey = shelf === newShelf ? store.newId() : shelf;
    const id = store.newId();
    const done = await run({
      action: 'add-task',
      title: `Add task ${name}`.slice(0, 2000),
      proposals: [
        ...(shelf === newShelf ? [{ table: 'shelves' as const, put: { ...made, id: shelfKey } }] : []),
        { table: 'tasks', put: { ...task, id, shelves: [shelfKey] } },
      ],
    });
    setSaving(false);
    if (!done) return;
    onClose();
    onOpenTask(id);
  };

  return (
    <Dialog title="Begin a task" onClose={onClose}>
      <form
        noValidate
        className="bw-first-form"
        onSubmit={(event) => {
          event.preventDefault();
          void save();
        }}
      >
        {asked === 0 ? null : <FieldErrors asked={asked} errors={errors} />}
        <TextInput
          id={`${field}-name`}
          label="Name of the task"
          description="What is changed, and where"
          value={name}
          error={errorAt('name')}
          data-autofocus
          onChange={({ currentTarget }) => setName(currentTarget.value)}
        />
        <TextInput
          id={`${field}-code`}
          label="Code"
          description="Short, and its own among the tasks; the title strip and every print carry it"
          value={code}
          error={errorAt('code')}
          onChange={({ currentTarget }) => setCode(currentTarget.value)}
        />
        <NativeSelect
          id={`${field}-shelf`}
          label="Draws on"
          description="The stock its bag is packed from; more shelves can be added to it later"
          data={[
            { value: newShelf, label: 'a new, empty shelf' },
            ...kept.map((one) => ({ value: one.id, label: one.name })),
          ]}
          value={shelf}
          onChange={({ currentTarget }) => setShelf(currentTarget.value)}
        />
        {shelf === newShelf ? (
          <TextInput
            id={`${field}-shelf-name`}
            label="Name of the shelf"
            value={shelfSaid}
            error={errorAt('shelf-name')}
            onChange={({ currentTarget }) => setShelfName(currentTarget.value)}
          />
        ) : null}
        {notice}
        <div className="bw-form-foot">
          <Button type="submit" variant="filled" disabled={saving}>
            {saving ? 'Saving…' : 'Begin the task'}
          </Button>
          <Button onClick={onClose}>Leave it</Button>
        </div>
      </form>
    </Dialog>
  );
}
