import { useId, useState } from 'react';
import { Button, NativeSelect, TextInput } from '@mantine/core';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import { FieldErrors } from '../../components/FieldErrors/FieldErrors.tsx';

export interface KeepDialogProps {
  tasks: readonly { id: string; code: string; name: string }[];
  /** The task at hand, else none. */
  task: string | null;
  name: string;
  onKeep: (task: string, name: string) => void;
  onClose: () => void;
}

const nameMost = 2000;

/** Which task a result is kept with, and by which name. */
export function KeepDialog({ tasks, task, name, onKeep, onClose }: KeepDialogProps) {
  const id = useId();
  const [chosen, setChosen] = useState(task ?? tasks[0]?.id ?? '');
  const [called, setCalled] = useState(name);
  const [asked, setAsked] = useState(0);
  const nameFault =
    called.trim() === ''
      ? 'Name: is missing.'
      : called.length > nameMost
        ? `Name: has ${called.length} characters; at most ${nameMost} are kept.`
        : undefined;
  const error = asked > 0 ? nameFault : undefined;
  return (
    <Dialog title="Keep with a task" onClose={onClose}>
      {tasks.length === 0 ? (
        <p>No task is kept yet. A result is kept with one: begin a task first.</p>
      ) : (
        <form
          className="bw-form"
          noValidate
          onSubmit={(event) => {
            event.preventDefault();
            if (nameFault === undefined) onKeep(chosen, called.trim());
            else setAsked(asked + 1);
          }}
        >
          <FieldErrors asked={asked} errors={error === undefined ? [] : [{ field: `${id}-name`, message: error }]} />
          <NativeSelect
            id={`${id}-task`}
            label="Task"
            data={tasks.map((one) => ({ value: one.id, label: `${one.code} ${one.name}` }))}
            value={chosen}
            onChange={({ currentTarget }) => setChosen(currentTarget.value)}
          />
          <TextInput
            id={`${id}-name`}
            className="bw-field"
            label="Name"
            value={called}
            error={error}
            autoComplete="off"
            onChange={({ currentTarget }) => setCalled(currentTarget.value)}
          />
          <p className="bw-second bw-small">
            Kept are the entries as typed, and the result as it is shown now, with formula, assumptions and sources.
          </p>
          <div className="bw-form-foot">
            <Button type="submit" variant="filled">
              Keep with {tasks.find((one) => one.id === chosen)?.code ?? 'the task'}
            </Button>
            <Button onClick={onClose}>Leave</Button>
          </div>
        </form>
      )}
    </Dialog>
  );
}
