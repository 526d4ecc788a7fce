import { useMemo, useState } from 'react';
import { Button, Checkbox, NativeSelect, TextInput } from '@mantine/core';
import type { KeptCallout } from '../../../shared-types/records/judgedLists.ts';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import { RefusedError } from '../../engine/errors.ts';
import { cellNamed } from '../../engine/inspection/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import type { Act } from '../../store/store.ts';
import { calloutToTake, takeTorque } from '../steps/takenTorque.ts';
import type { TorqueToTake } from '../steps/takenTorque.ts';
import { bandSaid, TorqueChange } from '../steps/TorqueChange.tsx';
import { countOf } from '../steps/words.ts';
import { useSiteRows, useStock, useTaskRows } from '../task/useTaskRows.ts';
import { choicesOf, filteredSteps, offeredSteps } from './stepsToSend.ts';
import type { OfferedStep, StepFilter } from './stepsToSend.ts';
import './sendToSteps.css';

export interface SendToStepsProps {
  taskId: string;
  callout: KeptCallout;
  /** Name of its list. */
  list: string;
  units: UnitsShown;
  run: (act: Act) => Promise<boolean>;
  onSent: (said: string) => void;
  onClose: () => void;
}

/** Gives a callout's torque, source and condition to steps of the task: which ones, what it changes there, then one act. */
export function SendToSteps(props: SendToStepsProps) {
  const { taskId, callout, list, onClose } = props;
  const id = cellNamed(callout.cells, 'id') || 'without id';
  const rows = useTaskRows(taskId);
  const read = useMemo(() => readTorque(callout, list), [callout, list]);
  return (
    <Dialog title={`Steps take callout ${id}`} onClose={onClose} className="bw-send">
      {'refused' in read ? (
        <p role="alert">The callout cannot be given to a step: {read.refused}</p>
      ) : rows.kind !== 'ready' ? (
        <p role="status">Reading the steps…</p>
      ) : (
        <Choice {...props} torque={read.torque} shelves={rows.task.shelves} steps={rows.steps} />
      )}
    </Dialog>
  );
}

function readTorque(callout: KeptCallout, list: string): { torque: TorqueToTake } | { refused: string } {
  try {
    return { torque: calloutToTake(callout, list) };
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    return { refused: error.refusal.message };
  }
}

interface ChoiceProps extends SendToStepsProps {
  torque: TorqueToTake;
  shelves: readonly string[];
  steps: Parameters<typeof offeredSteps>[0];
}

function Choice({ torque, shelves, steps, units, run, onSent, onClose }: ChoiceProps) {
  const stock = useStock(shelves);
  const sites = useSiteRows();
  const offered = useMemo(() => offeredSteps(steps, { stock, sites }), [steps, stock, sites]);
  const threads = choicesOf(offered, 'thread');
  const [filter, setFilter] = useState<StepFilter>({
    ...{ text: '', interface: '' },
    thread: threads.includes(torque.thread) ? torque.thread : '',
  });
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set());
  const [asked, setAsked] = useState(false);
  const shown = filteredSteps(offered, filter);
  const taken = offered.filter(({ step }) => chosen.has(step.id));
  const hidden = taken.length - shown.filter(({ step }) => chosen.has(step.id)).length;
  const choose = (keys: readonly string[], isChosen: boolean): void => {
    const next = new Set(chosen);
    for (const key of keys) {
      if (isChosen) next.add(key);
      else next.delete(key);
    }
    setChosen(next);
  };
  const send = async (): Promise<void> => {
    setAsked(true);
    if (taken.length === 0) return;
    if (!(await run(takeTorque(taken, torque)))) return;
    onSent(`${countOf(taken.length, 'step')} took ${torque.name}.`);
  };
  if (offered.length === 0) return <p>The task has no step that tightens anything.</p>;
  const { callout, calloutSource, calloutFrom } = torque.fields;
  return (
    <form
      className="bw-send-form"
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        void send();
      }}
    >
      <p>
        <b>{bandSaid(callout, units)}</b> <span className="bw-second">for {torque.thread}</span>
        {calloutFrom.condition === undefined ? '' : `, ${calloutFrom.condition}`}
        <br />
        <span className="bw-second">{calloutSource}</span>
      </p>
      <div className="bw-send-filter">
        <TextInput
          type="search"
          label="Find"
          placeholder="Code, name, interface or thread"
          value={filter.text}
          onChange={({ currentTarget: { value } }) => setFilter({ ...filter, text: value })}
        />
        <NativeSelect
          label="Interface"
          data={[{ value: '', label: 'Every interface' }, ...choicesOf(offered, 'interfaceCode')]}
          value={filter.interface}
          onChange={({ currentTarget: { value } }) => setFilter({ ...filter, interface: value })}
        />
        <NativeSelect
          label="Thread"
          data={[{ value: '', label: 'Every thread' }, ...threads]}
          value={filter.thread}
          onChange={({ currentTarget: { value } }) => setFilter({ ...filter, thread: value })}
        />
        <Button disabled={shown.length === 0} onClick={() => choose(keysOf(shown), true)}>
          Choose the {shown.length} shown
        </Button>
        <Button disabled={chosen.size === 0} onClick={() => setChosen(new Set())}>
          Choose none
        </Button>
      </div>
      <fieldset className="bw-send-steps">
        <legend>
          {shown.length} of {countOf(offered.length, 'tightening step')}
        </legend>
        {shown.length === 0 ? <p>No step is as asked for.</p> : null}
        {shown.map((one) => (
          <StepChoice
            key={one.step.id}
            one={one}
            torque={torque}
            units={units}
            isChosen={chosen.has(one.step.id)}
            onChoose={(isChosen) => choose([one.step.id], isChosen)}
          />
        ))}
      </fieldset>
      {asked && taken.length === 0 ? <p role="alert">No step is chosen.</p> : null}
      {hidden === 0 ? null : <p className="bw-second">{countOf(hidden, 'chosen step')} not among those shown.</p>}
      <div className="bw-form-foot">
        <Button type="submit" variant="filled">
          {taken.length === 0 ? 'Give it to the steps' : `Give it to ${countOf(taken.length, 'step')}`}
        </Button>
        <Button onClick={onClose}>Leave the steps as they are</Button>
      </div>
    </form>
  );
}

const keysOf = (steps: readonly OfferedStep[]): string[] => steps.map(({ step }) => step.id);

interface StepChoiceProps {
  one: OfferedStep;
  torque: TorqueToTake;
  units: UnitsShown;
  isChosen: boolean;
  onChoose: (isChosen: boolean) => void;
}

function StepChoice({ one, torque, units, isChosen, onChoose }: StepChoiceProps) {
  const { step, number, name, thread } = one;
  const place = one.interface === '' ? 'no interface' : `interface ${one.interface}`;
  return (
    <div className="bw-send-step">
      <Checkbox
        label={`${number} · ${name}`}
        description={`${step.code} · ${place} · ${thread === '' ? 'no fastener' : thread}`}
        checked={isChosen}
        onChange={({ currentTarget: { checked } }) => onChoose(checked)}
      />
      <div>
        <TorqueChange step={step} torque={torque} units={units} />
        {thread === '' || thread === torque.thread ? null : (
          <p className="bw-send-other">
            Another thread: the callout is for {torque.thread}, the step’s fastener has {thread}.
          </p>
        )}
      </div>
    </div>
  );
}
