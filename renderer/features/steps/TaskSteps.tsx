import { memo, useEffect, useMemo, useRef, useState } from 'react';
import type { KeyboardEvent } from 'react';
import { Button } from '@mantine/core';
import type { BagResult } from '../../../shared-types/bag.ts';
import type { Task, TaskOuting, TaskStep } from '../../../shared-types/records/task.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { Missing } from '../../engine/records/readableTask.ts';
import { showNumber } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { LeaveQuestion } from '../../components/RecordForm/LeaveQuestion.tsx';
import type { Act } from '../../store/store.ts';
import { goTo } from '../session/usePlace.ts';
import { useStore } from '../session/useStore.ts';
import { RemoveQuestion } from '../task/RemoveQuestion.tsx';
import { SheetState } from '../task/SheetState.tsx';
import { useAct } from '../task/useAct.tsx';
import { useAsked } from '../task/useAsked.ts';
import { useSiteRows, useStock, useTaskRows } from '../task/useTaskRows.ts';
import { filledFrom } from './fromInterface.ts';
import { countsText, useJudgements } from './judging.ts';
import { NoStepsYet } from './NoStepsYet.tsx';
import { copyStep, moveStep, removeStep, stepsUnder } from './stepActs.ts';
import { StepActions } from './StepActions.tsx';
import { stepAsking } from './stepCommands.ts';
import type { StepWish } from './stepCommands.ts';
import { StepDetail } from './StepDetail.tsx';
import { StepForm } from './StepForm.tsx';
import type { FormGuard } from './StepForm.tsx';
import { StepsPanes } from './StepsPanes.tsx';
import { stepCalled, stepName } from './stepTexts.ts';
import { StepTable } from './StepTable.tsx';
import { UnfinishedStep } from './UnfinishedStep.tsx';
import { useTaskSteps } from './useTaskSteps.ts';
import { countOf } from './words.ts';

export interface TaskStepsProps {
  taskId: string;
  plan: ResolvedPlan | null;
  incomplete: readonly Missing[];
  stepId: string | undefined;
  result: BagResult | null;
  units: UnitsShown;
}

/** The steps of a kept task: added, changed, put in order, each judged as soon as it is saved. */
export const TaskSteps = memo(function TaskSteps({ taskId, ...rest }: TaskStepsProps) {
  const rows = useTaskRows(taskId);
  if (rows.kind !== 'ready') return <SheetState state={rows} what="steps" />;
  return <ReadySteps {...rest} task={rows.task} steps={rows.steps} outings={rows.outings} />;
});

type Open =
  | { kind: 'edit'; step: TaskStep }
  | { kind: 'add'; time: number; after: string | null; like: TaskStep | null };

interface ReadyStepsProps extends Omit<TaskStepsProps, 'taskId'> {
  task: Task;
  steps: readonly TaskStep[];
  outings: readonly TaskOuting[];
}

function ReadySteps({ task, steps, outings, plan, incomplete, stepId, result, units }: ReadyStepsProps) {
  const store = useStore();
  const stock = useStock(task.shelves);
  const sites = useSiteRows();
  const { judgements, counts, done } = useJudgements(plan);
  const view = useTaskSteps({ steps, outings, stock, sites, plan, incomplete, judgements, units });
  const { run, notice } = useAct();
  const [open, setOpen] = useState<Open | null>(null);
  const [removing, setRemoving] = useState<TaskStep | null>(null);
  const [leaving, setLeaving] = useState<{ then: () => void } | null>(null);
  const [said, setSaid] = useState('');
  const guard = useRef<FormGuard | null>(null);
  const heading = useRef<HTMLHeadingElement>(null);
  const table = useRef<HTMLDivElement>(null);
  const focusNext = useRef<'heading' | 'row' | null>(null);

  const rows = useMemo(() => ({ steps, outings }), [steps, outings]);
  const inHand = view.byCode.get(stepId ?? '') ?? view.listed[0] ?? null;
  const step = inHand?.step ?? null;
  const number = inHand?.number ?? 0;
  const at = inHand === null ? -1 : view.listed.indexOf(inHand);

  // Where a deed moved something, the focus goes along once it is drawn.
  useEffect(() => {
    const wanted = focusNext.current;
    if (wanted === null) return;
    const target =
      wanted === 'heading' ? heading.current : table.current?.querySelector<HTMLElement>('[aria-selected="true"]');
    if (target === null || target === undefined) return;
    focusNext.current = null;
    target.focus({ preventScroll: wanted === 'row' });
  });

  const choose = (code: string): void => goTo({ at: 'steps', step: code }, 'replace');
  /** Entries that are not saved are asked about before something else takes their place. */
  const guarded = (then: () => void): void => {
    if (open !== null && guard.current?.changed === true) setLeaving({ then });
    else then();
  };
  const close = (): void => {
    setOpen(null);
    focusNext.current = 'heading';
  };
  const select = (code: string): void =>
    guarded(() => {
      setOpen(null);
      choose(code);
    });
  const add = (): void =>
    guarded(() =>
      setOpen({ kind: 'add', time: Date.now(), after: stepId === undefined ? null : (step?.id ?? null), like: step }),
    );
  const edit = (): void => {
    if (step !== null) guarded(() => setOpen({ kind: 'edit', step }));
  };
  const act = async (made: Act, after: { said: string; code?: string; focus: 'heading' | 'row' }): Promise<void> => {
    if (!(await run(made))) return;
    setSaid(after.said);
    if (after.code !== undefined) choose(after.code);
    focusNext.current = after.focus;
  };
  const copy = (): void => {
    if (step === null) return;
    const made = copyStep(rows, step, { id: store.newId(), number });
    void act(made.act, { said: `Step ${number} copied.`, code: made.copy.code, focus: 'heading' });
  };
  const moved = (by: -1 | 1): Act | null => (step === null ? null : moveStep(rows, step, by, number));
  const move = (by: -1 | 1): void => {
    const made = moved(by);
    const name = step === null ? '' : stepName(step);
    if (made === null) setSaid(by === 1 ? 'It is the last already.' : 'It is the first already.');
    else
      void act(made, { said: `${name} moved ${by === 1 ? 'down' : 'up'}.`, focus: focusInTable() ? 'row' : 'heading' });
  };
  const focusInTable = (): boolean => table.current?.contains(document.activeElement) === true;
  const remove = (): void => {
    if (removing === null) return;
    const next = view.listed.slice(at + 1).find(({ depth }) => depth <= (inHand?.depth ?? 0)) ?? view.listed[at - 1];
    setRemoving(null);
    void act(removeStep(rows, removing, number), {
      said: `Step ${number} removed.`,
      ...(next === undefined ? {} : { code: next.step.code }),
      focus: 'heading',
    });
  };
  const wishes: Record<StepWish, () => void> = {
    add,
    edit,
    copy,
    remove: () => setRemoving(step),
    up: () => move(-1),
    down: () => move(1),
  };
  useAsked(stepAsking, (wish) => wishes[wish]());

  const onTableKey = (event: KeyboardEvent): void => {
    const moves = event.altKey && (event.key === 'ArrowUp' || event.key === 'ArrowDown');
    if (!moves && event.key !== 'F2' && event.key !== 'Delete') return;
    event.preventDefault();
    event.stopPropagation();
    if (moves) guarded(() => move(event.key === 'ArrowUp' ? -1 : 1));
    else if (event.key === 'F2') edit();
    else guarded(() => setRemoving(step));
  };

  const countsLine = done
    ? countsText(counts, view.notComplete)
    : `judging: ${judgements.size} of ${countOf(plan?.steps.length ?? 0, 'step')}`;
  const actions =
    step === null ? null : (
      <StepActions
        canUp={moved(-1) !== null}
        canDown={moved(1) !== null}
        onEdit={edit}
        onCopy={copy}
        onMove={move}
        onRemove={() => setRemoving(step)}
      />
    );
  const planned = step === null ? null : view.inPlan(step.code);

  const pane = (): React.ReactNode => {
    if (open !== null)
      return (
        <StepForm
          key={open.kind === 'edit' ? open.step.id : `add ${open.time}`}
          task={task}
          rows={rows}
          stock={stock}
          sites={sites}
          before={open.kind === 'edit' ? open.step : null}
          number={open.kind === 'edit' ? (view.byCode.get(open.step.code)?.number ?? null) : null}
          like={open.kind === 'edit' ? null : open.like}
          after={open.kind === 'edit' ? null : open.after}
          guard={guard}
          onSaved={(saved, next) => {
            choose(saved.code);
            setSaid(`${stepName(saved)} is saved.`);
            if (next) setOpen({ kind: 'add', time: Date.now(), after: saved.id, like: saved });
            else close();
          }}
          onLeave={close}
        />
      );
    if (step === null) return <NoStepsYet hasOutings={outings.length > 0} headingRef={heading} onAdd={add} />;
    if (plan !== null && planned !== null)
      return (
        <StepDetail
          plan={plan}
          step={planned}
          number={number}
          of={view.listed.length}
          actions={actions}
          result={result}
          units={units}
          headingRef={heading}
          onStep={(by) => {
            const next = view.listed[at + by];
            if (next !== undefined) choose(next.step.code);
          }}
        />
      );
    return (
      <UnfinishedStep
        step={step}
        number={number}
        filled={filledFrom(step, sites.interfaces.get(step.interface ?? ''))}
        needs={plan === null ? [] : view.needsOf(step)}
        units={units}
        headingRef={heading}
        actions={actions}
      />
    );
  };
  const under = removing === null ? [] : stepsUnder(rows, removing);

  return (
    <>
      <StepsPanes
        tableRef={table}
        said={countsLine}
        buttons={
          <Button variant={open === null ? 'filled' : 'default'} onClick={add}>
            Add step
          </Button>
        }
        inHand={open === null ? (step?.id ?? null) : 'form'}
        onTableKey={onTableKey}
        table={
          <StepTable
            groups={view.groups}
            rowOf={view.rowOf}
            numberWide={showNumber(steps.length).length}
            minutesWide={view.minutesWide}
            selected={open?.kind === 'add' ? null : (step?.code ?? null)}
            onSelect={select}
            onOpen={edit}
            empty="The steps appear here, by outing and in order, as soon as one is added."
          />
        }
      >
        {notice}
        {pane()}
      </StepsPanes>
      <span role="status" className="bw-hidden">
        {said}
      </span>
      {leaving === null ? null : (
        <LeaveQuestion
          what={guard.current?.heading ?? 'this form'}
          onStay={() => setLeaving(null)}
          onLeave={() => {
            guard.current?.forget();
            guard.current = null;
            setLeaving(null);
            leaving.then();
          }}
        />
      )}
      {removing === null ? null : (
        <RemoveQuestion what={stepCalled(removing, number)} onStay={() => setRemoving(null)} onRemove={remove}>
          <p>
            <b>{stepName(removing)}</b> goes from this task
            {under.length === 0
              ? '.'
              : `, and with it ${countOf(under.length, 'step')} done only if it fails: ${under.map(stepName).join(', ')}.`}
          </p>
        </RemoveQuestion>
      )}
    </>
  );
}
