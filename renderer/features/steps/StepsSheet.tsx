import { memo, useMemo, useState } from 'react';
import type { KeyboardEvent, ReactNode } from 'react';
import { Button } from '@mantine/core';
import type { BagResult } from '../../../shared-types/bag.ts';
import type { Host } from '../../../shared-types/host.ts';
import type { Task, TaskOuting, TaskStep } from '../../../shared-types/records/task.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { Missing } from '../../engine/records/readableTask.ts';
import { showNumber } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import type { Act } from '../../store/store.ts';
import { goTo } from '../session/usePlace.ts';
import { useStore } from '../session/useStore.ts';
import { RecordActions } from '../task/RecordActions.tsx';
import { RemoveQuestion } from '../task/RemoveQuestion.tsx';
import { SheetState } from '../task/SheetState.tsx';
import { TwoPanes } from '../task/TwoPanes.tsx';
import { useAct } from '../task/useAct.tsx';
import { useAsked } from '../task/useAsked.ts';
import { useStepWatchOuts } from '../watchOuts/useStepWatchOuts.ts';
import { useFocusAfter } from '../task/useFocusAfter.ts';
import { useMoves } from '../task/useMoves.ts';
import { useOpenForm } from '../task/useOpenForm.ts';
import { useSiteRows, useStock, useTaskRows } from '../task/useTaskRows.ts';
import { filledFrom } from './fromInterface.ts';
import { countsText, useJudgements } from './judging.ts';
import { NoStepsYet } from './NoStepsYet.tsx';
import { MoveSteps } from './MoveSteps.tsx';
import { BringStepsIn } from './exchange/BringStepsIn.tsx';
import { SaveSteps } from './exchange/SaveSteps.tsx';
import { FailureStepsForm } from './offered/FailureStepsForm.tsx';
import { UsualStepsForm } from './offered/UsualStepsForm.tsx';
import { copyStep, removeStep, stepsUnder } from './stepActs.ts';
import { stepAsking } from './stepCommands.ts';
import type { StepWish } from './stepCommands.ts';
import { StepDetail } from './StepDetail.tsx';
import { StepForm } from './StepForm.tsx';
import { stepCalled, stepName } from './stepTexts.ts';
import { StepTable } from './StepTable.tsx';
import { TorqueOrigin } from './TorqueOrigin.tsx';
import { UnfinishedStep } from './UnfinishedStep.tsx';
import { useStepMoves } from './useStepMoves.ts';
import type { MoveMade } from './useStepMoves.ts';
import { useTaskSteps } from './useTaskSteps.ts';
import type { ListedStep } from './useTaskSteps.ts';
import { countOf } from './words.ts';

export interface StepsSheetProps {
  /** Key of the task. */
  taskId: string;
  /** All of it that can be read. */
  plan: ResolvedPlan;
  /** What the plan lacks of the task, and why. */
  missing: readonly Missing[];
  /** Code of the step in hand; the first one where the address names none or one that is not there. */
  stepId: string | undefined;
  result: BagResult | null;
  units: UnitsShown;
  host: Host;
}

/** The steps of a task: added, changed, put in order, each judged as soon as it is saved. */
export const StepsSheet = memo(function StepsSheet({ taskId, ...rest }: StepsSheetProps) {
  const rows = useTaskRows(taskId);
  if (rows.kind !== 'ready') return <SheetState state={rows} what="steps" />;
  return <ReadySteps {...rest} task={rows.task} steps={rows.steps} outings={rows.outings} />;
});

type Open =
  | { kind: 'edit'; step: TaskStep }
  | { kind: 'add'; time: number; after: string | null; like: TaskStep | null }
  | { kind: 'usual'; like: TaskStep | null; number: number | null }
  | { kind: 'failures'; steps: readonly ListedStep[] };

/** A table on its way in or out. */
type Exchange = { kind: 'in'; pasted?: string } | { kind: 'out' };

interface ReadyStepsProps extends Omit<StepsSheetProps, 'taskId'> {
  task: Task;
  steps: readonly TaskStep[];
  outings: readonly TaskOuting[];
}

function ReadySteps({ task, steps, outings, plan, missing, stepId, result, units, host }: ReadyStepsProps) {
  const store = useStore();
  const stock = useStock(task.shelves);
  const sites = useSiteRows();
  const { judgements, counts, done } = useJudgements(plan);
  const view = useTaskSteps({ steps, outings, stock, sites, plan, missing, judgements, units });
  const { run, notice } = useAct();
  const form = useOpenForm<Open>();
  const [removing, setRemoving] = useState<TaskStep | null>(null);
  const [numbering, setNumbering] = useState(false);
  const [exchange, setExchange] = useState<Exchange | null>(null);
  const [said, setSaid] = useState('');
  const { headingRef, table, next: focusNext } = useFocusAfter();

  const rows = useMemo(() => ({ steps, outings }), [steps, outings]);
  const inHand = view.byCode.get(stepId ?? '') ?? view.listed[0] ?? null;
  const step = inHand?.step ?? null;
  const number = inHand?.number ?? 0;
  const at = inHand === null ? -1 : view.listed.indexOf(inHand);

  const choose = (code: string): void => goTo({ at: 'steps', step: code }, 'replace');
  const close = (): void => {
    if (!form.left()) focusNext('heading');
  };
  const add = (): void =>
    form.show({ kind: 'add', time: Date.now(), after: stepId === undefined ? null : (step?.id ?? null), like: step });
  const edit = (): void => {
    if (step !== null) form.show({ kind: 'edit', step });
  };
  const act = async (made: Act, after: { said: string; code?: string; focus: 'heading' | 'row' }): Promise<boolean> => {
    if (!(await run(made))) return false;
    setSaid(after.said);
    if (after.code !== undefined) choose(after.code);
    focusNext(after.focus);
    return true;
  };
  const copy = (): void => {
    if (step === null) return;
    const made = copyStep(rows, step, { id: store.newId(), number });
    void act(made.act, { said: `Step ${number} copied.`, code: made.copy.code, focus: 'heading' });
  };
  const moves = useStepMoves(view, rows, inHand);
  const focusInTable = (): boolean => table.current?.contains(document.activeElement) === true;
  const doMove = async (made: MoveMade): Promise<boolean> => {
    if ('why' in made) setSaid(made.why);
    // The hand goes along, from an address too that names no step and so has the first one.
    const code = step === null ? {} : { code: step.code };
    const focus = focusInTable() ? 'row' : 'heading';
    return 'act' in made && (await act(made.act, { said: made.said, ...code, focus }));
  };
  const move = useMoves((by) => doMove(moves.by(by)));
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
    'to-number': () => setNumbering(moves.meant.length > 0),
    'bring-in': () => form.guarded(() => setExchange({ kind: 'in' })),
    'save-file': () => setExchange({ kind: 'out' }),
    usual: () => form.show({ kind: 'usual', like: step, number: inHand?.number ?? null }),
    failures: () => {
      if (moves.meant.length > 0) form.show({ kind: 'failures', steps: moves.meant });
    },
  };
  useAsked(stepAsking, (wish) => wishes[wish]());

  const onTableKey = (event: KeyboardEvent): void => {
    const isMove = event.altKey && (event.key === 'ArrowUp' || event.key === 'ArrowDown');
    if (!isMove && event.key !== 'F2' && event.key !== 'Delete') return;
    event.preventDefault();
    event.stopPropagation();
    if (isMove) form.guarded(() => move(event.key === 'ArrowUp' ? -1 : 1));
    else if (event.key === 'F2') edit();
    else form.guarded(() => setRemoving(step));
  };

  const countsLine = done
    ? countsText(counts, view.notComplete)
    : `judging: ${judgements.size} of ${countOf(plan.steps.length, 'step')}`;
  const actions =
    step === null ? null : (
      <RecordActions
        what="step"
        canUp={moves.chosen.size > 1 || view.canMove(step, -1)}
        canDown={moves.chosen.size > 1 || view.canMove(step, 1)}
        onEdit={edit}
        onCopy={copy}
        onMove={move}
        onRemove={() => setRemoving(step)}
      >
        <Button size="xs" onClick={wishes['to-number']}>
          Move to number…
        </Button>
        <Button size="xs" onClick={wishes.failures}>
          If it fails…
        </Button>
      </RecordActions>
    );
  const planned = step === null ? null : view.inPlan(step.code);
  const watchOuts = useStepWatchOuts(step, task, result);

  const { open } = form;
  const onOffered = (added: readonly TaskStep[]): void => {
    const [first] = added;
    if (first !== undefined) choose(first.code);
    setSaid(`${countOf(added.length, 'step')} added.`);
    close();
  };
  const asked = { task, rows, stock, sites, units, leaveAsked: form.leaveAsked, onStay: form.stay, onLeave: close };
  const pane = (): ReactNode => {
    if (open?.kind === 'usual')
      return <UsualStepsForm {...asked} like={open.like} number={open.number} onSaved={onOffered} />;
    if (open?.kind === 'failures') return <FailureStepsForm {...asked} steps={open.steps} onSaved={onOffered} />;
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
          leaveAsked={form.leaveAsked}
          onStay={form.stay}
          onSaved={(saved, next) => {
            choose(saved.code);
            setSaid(`${stepName(saved)} is saved.`);
            if (next) form.replace({ kind: 'add', time: Date.now(), after: saved.id, like: saved });
            else close();
          }}
          onLeave={close}
        />
      );
    if (step === null)
      return (
        <NoStepsYet
          hasOutings={outings.length > 0}
          headingRef={headingRef}
          onAdd={add}
          onUsual={wishes.usual}
          onBringIn={wishes['bring-in']}
        />
      );
    if (planned !== null)
      return (
        <StepDetail
          plan={plan}
          step={planned}
          number={number}
          of={view.listed.length}
          actions={actions}
          origin={
            step.calloutFrom === undefined ? null : <TorqueOrigin step={step} number={number} units={units} run={run} />
          }
          result={result}
          watchOuts={watchOuts}
          units={units}
          headingRef={headingRef}
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
        needs={view.needsOf(step)}
        units={units}
        watchOuts={watchOuts}
        headingRef={headingRef}
        actions={actions}
      />
    );
  };
  const under = removing === null ? [] : stepsUnder(rows, removing);

  return (
    <>
      <TwoPanes
        heading="Steps"
        region="Step in hand"
        tableRef={table}
        said={
          moves.chosen.size === 0 ? countsLine : `${moves.chosen.size} chosen together; Esc lets go · ${countsLine}`
        }
        buttons={
          <>
            <Button variant={open === null ? 'filled' : 'default'} onClick={add}>
              Add step
            </Button>
            <Button onClick={wishes.usual}>Add usual steps…</Button>
            <Button onClick={wishes['bring-in']}>Bring in…</Button>
            <Button onClick={wishes['save-file']}>Save as a file…</Button>
          </>
        }
        inHand={open === null ? (step?.id ?? null) : 'form'}
        onTableKey={onTableKey}
        table={
          <StepTable
            groups={view.groups}
            rowOf={view.rowOf}
            numberWide={showNumber(steps.length).length}
            minutesWide={view.minutesWide}
            selected={open?.kind === 'add' || open?.kind === 'usual' ? null : (step?.code ?? null)}
            onSelect={(code) => form.guarded(() => choose(code))}
            onOpen={edit}
            chosen={moves.chosen}
            onChoose={moves.choose}
            onPaste={(pasted) => form.guarded(() => setExchange({ kind: 'in', pasted }))}
            onDrop={(code, landing) => form.guarded(() => void doMove(moves.dropped(code, landing)))}
            empty="The steps appear here, by outing and in order, as soon as one is added."
          />
        }
      >
        {notice}
        {pane()}
      </TwoPanes>
      <span role="status" className="bw-hidden">
        {said}
      </span>
      {exchange?.kind !== 'in' ? null : (
        <BringStepsIn {...{ task, rows, sites, host, pasted: exchange.pasted }} onClose={() => setExchange(null)} />
      )}
      {exchange?.kind !== 'out' ? null : (
        <SaveSteps {...{ task, rows, sites, host }} onClose={() => setExchange(null)} />
      )}
      {!numbering ? null : (
        <MoveSteps
          numbers={moves.meant.map((one) => one.number)}
          most={steps.length}
          onMove={async (wanted) => {
            const made = moves.toNumber(wanted);
            if ('why' in made) return made.why;
            return (await doMove(made)) ? null : 'It could not be kept; the reason stands on the sheet.';
          }}
          onClose={() => setNumbering(false)}
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
