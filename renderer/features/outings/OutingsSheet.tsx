import { memo, useMemo, useState } from 'react';
import type { KeyboardEvent } from 'react';
import { Button } from '@mantine/core';
import type { PlanProblem } from '../../../shared-types/bag.ts';
import type { CourseProblem } from '../../../shared-types/outing.ts';
import type { Task, TaskOuting, TaskStep } from '../../../shared-types/records/task.ts';
import { planProblems } from '../../engine/outing/planProblems.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { Missing } from '../../engine/records/readableTask.ts';
import { showNumber } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import type { KeptResult } from '../../store/session.ts';
import type { Act } from '../../store/store.ts';
import { RowGrid } from '../../components/RowGrid/RowGrid.tsx';
import type { GridColumn, GridRow } from '../../components/RowGrid/RowGrid.tsx';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { goTo } from '../session/usePlace.ts';
import { stepName } from '../steps/stepTexts.ts';
import { countOf, fewNumbersText } from '../steps/words.ts';
import { RecordActions } from '../task/RecordActions.tsx';
import { RemoveQuestion, RemoveRefused } from '../task/RemoveQuestion.tsx';
import { SheetState } from '../task/SheetState.tsx';
import { useAct } from '../task/useAct.tsx';
import { useAsked } from '../task/useAsked.ts';
import { useFocusAfter } from '../task/useFocusAfter.ts';
import { useMoves } from '../task/useMoves.ts';
import { useOpenForm } from '../task/useOpenForm.ts';
import { TwoPanes } from '../task/TwoPanes.tsx';
import { useStock, useTaskRows } from '../task/useTaskRows.ts';
import { isSame, problemMarks } from './courseWords.ts';
import { moveOuting, outingCalled, removeOuting, stepsOn } from './outingActs.ts';
import { outingAsking } from './outingCommands.ts';
import type { OutingWish } from './outingCommands.ts';
import { OutingDetail } from './OutingDetail.tsx';
import type { CoursesDrawn } from './OutingDetail.tsx';
import { OutingForm } from './OutingForm.tsx';
import { takeOrder, takeSwap } from './proposalActs.ts';
import { scheduleOf } from './schedule.ts';
import { useCourse } from './useCourse.ts';

export interface OutingsSheetProps {
  /** Key of the task. */
  taskId: string;
  /** The plan as its file would say it, and how that would be named: what is followed. */
  text: string;
  file: string;
  /** The answer to the plan as it stands, with its planned bags; null where there is none. */
  kept: KeptResult | null;
  /** All of it that can be read. */
  plan: ResolvedPlan;
  /** What the plan lacks of the task, and why. */
  missing: readonly Missing[];
  /** Code of the outing in hand; the first one where the address names none or one that is not there. */
  outing: string | undefined;
  units: UnitsShown;
}

const columns: GridColumn[] = [
  { key: 'name', label: 'Outing', width: 'minmax(0, 1fr)' },
  { key: 'roles', label: 'Roles', width: 'minmax(0, 0.7fr)', wideOnly: true },
  { key: 'steps', label: 'Steps', width: '54px', end: true, wideOnly: true },
  { key: 'minutes', label: 'min out', width: '92px', end: true },
  { key: 'state', label: 'Course', width: '120px' },
];

/** The outings of a task: who goes, with which bags, for how long; each drawn by the clock. */
export const OutingsSheet = memo(function OutingsSheet({ taskId, ...rest }: OutingsSheetProps) {
  const rows = useTaskRows(taskId);
  if (rows.kind !== 'ready') return <SheetState state={rows} what="outings" />;
  return <ReadyOutings {...rest} task={rows.task} steps={rows.steps} outings={rows.outings} />;
});

interface ReadyOutingsProps extends Omit<OutingsSheetProps, 'taskId'> {
  task: Task;
  steps: readonly TaskStep[];
  outings: readonly TaskOuting[];
}

/** Each kind of problem once, with how many of it. */
function ProblemMarks({
  problems,
  followed,
}: {
  problems: readonly PlanProblem[];
  followed: readonly CourseProblem[];
}) {
  const states = [
    ...problems.filter((problem) => !followed.some((other) => isSame(problem, other))).map(({ rule }) => rule),
    ...followed.map(({ rule }) => problemMarks[rule]),
  ];
  const rules = [...new Set(states)];
  if (rules.length === 0) return <span className="bw-second">no problem found</span>;
  return rules.map((rule) => {
    const count = states.filter((state) => state === rule).length;
    return (
      <StateMark key={rule} state={rule} {...(count > 1 ? { text: `${count} ${rule.replaceAll('-', ' ')}` } : {})} />
    );
  });
}

function ReadyOutings(props: ReadyOutingsProps) {
  const { task, steps, outings, text, file, kept, plan, missing, outing: asked } = props;
  const stock = useStock(task.shelves);
  const { run, notice } = useAct();
  const form = useOpenForm<{ kind: 'add' } | { kind: 'edit'; outing: TaskOuting }>();
  const [removing, setRemoving] = useState<TaskOuting | null>(null);
  const [said, setSaid] = useState('');
  const [drawn, setDrawn] = useState<CoursesDrawn>('one');
  const { headingRef, table, next: focusNext } = useFocusAfter();
  const rows = useMemo(() => ({ steps, outings }), [steps, outings]);
  const problems = useMemo(() => planProblems(plan), [plan]);
  const course = useCourse(text, file, kept?.result.outings ?? null);
  const take = async (act: Act): Promise<void> => {
    if (await run(act)) setSaid(`${act.title}: done. Undo takes it back.`);
  };
  const inHand = outings.find(({ code }) => code === asked) ?? outings[0] ?? null;

  const choose = (code: string): void => goTo({ at: 'outings', outing: code }, 'replace');
  const close = (): void => {
    if (!form.left()) focusNext('heading');
  };
  const add = (): void => form.show({ kind: 'add' });
  const edit = (): void => {
    if (inHand !== null) form.show({ kind: 'edit', outing: inHand });
  };
  const moved = (by: -1 | 1) => (inHand === null ? null : moveOuting(rows, inHand, by));
  const move = useMoves(async (by) => {
    const act = moved(by);
    const inTable = table.current?.contains(document.activeElement) === true;
    if (act === null) setSaid(by === 1 ? 'It is the last already.' : 'It is the first already.');
    if (act === null || !(await run(act))) return false;
    setSaid(`${act.title}: done.`);
    if (inTable) focusNext('row');
    return true;
  });
  const remove = async (): Promise<void> => {
    if (removing === null) return;
    setRemoving(null);
    if (!(await run(removeOuting(removing)))) return;
    setSaid(`${outingCalled(removing)} removed.`);
    focusNext('heading');
  };
  const wishes: Record<OutingWish, () => void> = {
    add,
    edit,
    remove: () => setRemoving(inHand),
    up: () => move(-1),
    down: () => move(1),
    'draw-all': () => setDrawn('all'),
    'draw-one': () => setDrawn('one'),
    'to-problems': () => document.querySelector<HTMLElement>('.bw-course-problems')?.focus(),
    'to-proposals': () => document.querySelector<HTMLElement>('.bw-course-proposals')?.focus(),
  };
  useAsked(outingAsking, (wish) => wishes[wish]());
  const onTableKey = (event: KeyboardEvent): void => {
    const moves = event.altKey && (event.key === 'ArrowUp' || event.key === 'ArrowDown');
    if (!moves && event.key !== 'F2' && event.key !== 'Delete') return;
    event.preventDefault();
    event.stopPropagation();
    if (moves) form.guarded(() => move(event.key === 'ArrowUp' ? -1 : 1));
    else if (event.key === 'F2') edit();
    else form.guarded(() => setRemoving(inHand));
  };

  const gridRows = outings.map((outing): GridRow => ({
    kind: 'row',
    id: outing.code,
    cells: () => {
      const own = stepsOn(rows, outing);
      const { endMin } = scheduleOf(own);
      const limit = outing.minutesMax === undefined ? '' : ` of ${showNumber(outing.minutesMax)}`;
      return {
        name: (
          <span className="bw-step-name">
            {outing.name ?? `Outing ${outing.code}`}{' '}
            {outing.name === undefined ? null : <span className="bw-code">{outing.code}</span>}
          </span>
        ),
        roles: outing.roles.join(', '),
        steps: own.length,
        minutes: `${showNumber(endMin)}${limit}`,
        state: (
          <ProblemMarks
            problems={problems.filter((problem) => problem.outing === outing.code)}
            followed={course.followed?.ledger.problems.filter((problem) => problem.outing === outing.code) ?? []}
          />
        ),
      };
    },
  }));
  const blocking = removing === null ? [] : stepsOn(rows, removing);
  const numbers = new Map(steps.map(({ id }, index) => [id, index + 1]));

  return (
    <>
      <TwoPanes
        heading="Outings"
        region="Outing in hand"
        tableRef={table}
        said={`${countOf(outings.length, 'trip')}, ${countOf(steps.length, 'step')}`}
        buttons={
          <Button variant={form.open === null ? 'filled' : 'default'} onClick={add}>
            Add outing
          </Button>
        }
        inHand={form.open === null ? (inHand?.id ?? null) : 'form'}
        onTableKey={onTableKey}
        table={
          <RowGrid
            label="Outings"
            columns={columns}
            rows={gridRows}
            selected={form.open?.kind === 'add' ? null : (inHand?.code ?? null)}
            onSelect={(code) => form.guarded(() => choose(code))}
            onOpen={edit}
            empty="The outings appear here, in the order in which they go out, as soon as one is added."
          />
        }
      >
        {notice}
        {form.open !== null ? (
          <OutingForm
            key={form.open.kind === 'edit' ? form.open.outing.id : 'add'}
            task={task}
            rows={rows}
            stock={stock}
            before={form.open.kind === 'edit' ? form.open.outing : null}
            leaveAsked={form.leaveAsked}
            onStay={form.stay}
            onSaved={(outing) => {
              choose(outing.code);
              setSaid(`${outingCalled(outing)} is saved.`);
              close();
            }}
            onLeave={close}
          />
        ) : inHand === null ? (
          <div className="bw-task-sheet">
            <h1 ref={headingRef} tabIndex={-1} className="bw-heading">
              This task has no outings yet
            </h1>
            <p>An outing is one trip out and back: who goes, with which bags, and for how long.</p>
            <div>
              <Button variant="filled" onClick={add}>
                Add the first outing
              </Button>
            </div>
          </div>
        ) : (
          <OutingDetail
            outing={inHand}
            steps={steps}
            stock={stock}
            plan={plan}
            missing={missing}
            outings={outings}
            drawn={drawn}
            onDrawn={setDrawn}
            problems={problems}
            course={course}
            planned={kept?.result.outings.find(({ id }) => id === inHand.code) ?? null}
            onOrder={(order) => void take(takeOrder(rows, inHand, order))}
            onSwap={(swap) => void take(takeSwap(rows, inHand, swap))}
            headingRef={headingRef}
            actions={
              <RecordActions
                what="outing"
                onEdit={edit}
                canUp={moved(-1) !== null}
                canDown={moved(1) !== null}
                onMove={move}
                onRemove={() => setRemoving(inHand)}
              />
            }
          />
        )}
      </TwoPanes>
      <span role="status" className="bw-hidden">
        {said}
      </span>
      {removing === null ? null : blocking.length > 0 ? (
        <RemoveRefused what={removing.name ?? `Outing ${removing.code}`} onStay={() => setRemoving(null)}>
          <p>
            {countOf(blocking.length, 'step')} {blocking.length === 1 ? 'goes' : 'go'} out on it:{' '}
            {fewNumbersText(blocking.map(({ id }) => numbers.get(id) ?? 0))}
            {blocking.length === 1 ? ` (${blocking.map(stepName).join('')})` : ''}. Remove them, or give them another
            outing first.
          </p>
        </RemoveRefused>
      ) : (
        <RemoveQuestion what={outingCalled(removing)} onStay={() => setRemoving(null)} onRemove={() => void remove()}>
          <p>No step goes out on it.</p>
        </RemoveQuestion>
      )}
    </>
  );
}
