import { useEffect, useMemo, useRef, useState } from 'react';
import { Button, TextInput } from '@mantine/core';
import { Dialog } from '../../components/Dialog/Dialog.tsx';
import type { Frozen } from '../../engine/frozen/index.ts';
import type { TaskAtHand } from '../../store/session.ts';
import { stepsAsCallouts } from '../findings/stepCells.ts';
import { useSessionState } from '../session/SessionContext.ts';
import { useStore, useTable } from '../session/useStore.ts';
import { countOf } from '../steps/words.ts';
import { useAct } from '../task/useAct.tsx';
import { useSiteRows, useStock, useTaskRows } from '../task/useTaskRows.ts';
import { keepValuesAct, nothingRead, readListName, torquedSteps, valueFaults, valueKey } from './readValues.ts';
import type { ReadValue, ReadValues } from './readValues.ts';

export interface ValuesDialogProps {
  atHand: TaskAtHand;
  frozen: Frozen;
  outing: string;
  name: string;
  revision: number;
  numberOf: (step: string) => string;
  onClose: () => void;
}

const fields = [
  { field: 'breakaway', label: 'Breakaway' },
  { field: 'running', label: 'Running' },
  { field: 'final', label: 'Final' },
] as const;

/** The torques that were read at the work site, step by step and position by position, kept as records of the task. */
export function ValuesDialog({ atHand, frozen, outing, name, revision, numberOf, onClose }: ValuesDialogProps) {
  const store = useStore();
  const { preferences } = useSessionState();
  const { run, notice } = useAct();
  const rows = useTaskRows(atHand.id);
  const sites = useSiteRows();
  const stock = useStock(atHand.task.shelves);
  const tables = {
    asRunLists: useTable('asRunLists'),
    calloutLists: useTable('calloutLists'),
    asRuns: useTable('asRuns'),
    callouts: useTable('callouts'),
  };
  const steps = useMemo(() => torquedSteps(frozen, outing), [frozen, outing]);
  const [values, setValues] = useState<ReadValues>(new Map());
  const [time, setTime] = useState('');
  const [asked, setAsked] = useState(false);
  const [said, setSaid] = useState<string | null>(null);
  const form = useRef<HTMLFormElement>(null);
  const [refusals, setRefusals] = useState(0);
  // The first field that is wrong gets the focus, each time they are refused.
  useEffect(() => {
    if (refusals > 0) form.current?.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus();
  }, [refusals]);
  const faults = asked ? valueFaults(values) : new Map<string, Partial<Record<keyof ReadValue, string>>>();
  const ready = rows.kind === 'ready' && Object.values(tables).every((table) => table.ready);
  const of = { outing: `${outing}, revision ${revision}` };
  const before = [...tables.asRuns.rows.values()].filter(({ cells }) => cells['outing'] === of.outing).length;
  const keep = async (): Promise<void> => {
    setAsked(true);
    if (valueFaults(values).size > 0) return setRefusals(refusals + 1);
    if (!ready || rows.kind !== 'ready') return;
    const own = <R extends { task: string }>(table: { rows: ReadonlyMap<string, R> }): R[] =>
      [...table.rows.values()].filter((one) => one.task === atHand.id);
    const asRunLists = own(tables.asRunLists);
    const ofTask = new Set([...asRunLists, ...own(tables.calloutLists)].map(({ id }) => id));
    const inLists = <R extends { list: string }>(table: { rows: ReadonlyMap<string, R> }): R[] =>
      [...table.rows.values()].filter((one) => ofTask.has(one.list));
    const act = keepValuesAct({
      ...{ task: atHand.id, person: preferences.person, outing, revision, time, steps, values, asRunLists },
      calloutLists: own(tables.calloutLists),
      asRuns: inLists(tables.asRuns),
      callouts: inLists(tables.callouts),
      taskSteps: rows.steps,
      asCallouts: stepsAsCallouts(rows.steps, { stock, sites }),
      newId: () => store.newId(),
    });
    if (act === null) {
      setSaid('Nothing was typed: a record needs the final torque.');
      return;
    }
    if (await run(act)) onClose();
  };
  return (
    <Dialog title={`Values read on ${name}`} onClose={onClose} className="bw-return-dialog">
      <form
        ref={form}
        noValidate
        onSubmit={(event) => {
          event.preventDefault();
          void keep();
        }}
      >
        {steps.length === 0 ? <p>No step of this outing tightens by a torque.</p> : null}
        {steps.length === 0 ? null : (
          <p>
            Each torque with its unit, as “45 lbf·ft”; what was not read stays empty. They are kept in the list “
            {readListName}” of the task’s records, and judged there.
            {before === 0
              ? ''
              : ` ${countOf(before, 'value')} of this outing ${before === 1 ? 'is' : 'are'} kept already.`}
          </p>
        )}
        {faults.size === 0 ? null : (
          <p role="alert">
            <b>{countOf(faults.size, 'position')} cannot be kept so:</b> what is wrong stands at the fields.
          </p>
        )}
        {steps.map((step) => (
          <fieldset key={step.code} className="bw-return-values">
            <legend>
              {numberOf(step.code)}, <bdi>{step.name}</bdi>
              <span className="bw-second">
                {' '}
                asked: {step.asked}
                {step.tool === null ? '' : `; with ${step.tool}`}
                {step.serial === null ? '' : `, serial ${step.serial}`}
                {step.contingency ? '; only if another one fails' : ''}
              </span>
            </legend>
            {step.positions.map((place) => {
              const key = valueKey(step.code, place);
              const value = values.get(key) ?? nothingRead;
              return (
                <div key={place} className="bw-return-value" role="group" aria-label={`Position ${place}`}>
                  <span>Position {place}</span>
                  {fields.map(({ field, label }) => (
                    <TextInput
                      key={field}
                      label={label}
                      aria-label={`${label} torque, ${step.code}, position ${place}`}
                      autoComplete="off"
                      maxLength={80}
                      value={value[field]}
                      error={faults.get(key)?.[field]}
                      onChange={({ currentTarget }) =>
                        setValues(new Map([...values, [key, { ...value, [field]: currentTarget.value }]]))
                      }
                    />
                  ))}
                </div>
              );
            })}
          </fieldset>
        ))}
        {steps.length === 0 ? null : (
          <TextInput
            className="bw-field"
            label="Day and time"
            description="as “2026-04-21 09:10”, where it is known"
            autoComplete="off"
            maxLength={80}
            value={time}
            onChange={({ currentTarget }) => setTime(currentTarget.value)}
          />
        )}
        {notice}
        {said === null ? null : <p role="alert">{said}</p>}
        <div className="bw-form-foot">
          {steps.length === 0 ? null : (
            <Button type="submit" variant="filled" disabled={!ready}>
              Keep the values
            </Button>
          )}
          <Button onClick={onClose}>{steps.length === 0 ? 'Close' : 'Leave it'}</Button>
        </div>
      </form>
    </Dialog>
  );
}
