import { useCallback, useId, useMemo, useState } from 'react';
import type { ReactNode, Ref } from 'react';
import type { BagOuting, PlanProblem } from '../../../shared-types/bag.ts';
import type { OrderProposal, SwapProposal } from '../../../shared-types/outing.ts';
import type { Item } from '../../../shared-types/records/item.ts';
import type { TaskOuting, TaskStep } from '../../../shared-types/records/task.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { Missing } from '../../engine/records/readableTask.ts';
import { showNumber } from '../../engine/units/index.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { stepName } from '../steps/stepTexts.ts';
import { countOf } from '../steps/words.ts';
import { Facts } from '../task/Facts.tsx';
import { CourseParts } from './CourseParts.tsx';
import { CourseTable } from './CourseTable.tsx';
import { pieceName } from './courseWords.ts';
import { linesOf, shownUnasked } from './followedLines.ts';
import type { FollowedLine } from './followedLines.ts';
import { OutingProblems } from './OutingProblems.tsx';
import { scheduleOf } from './schedule.ts';
import { Timeline } from './Timeline.tsx';
import type { CourseState } from './useCourse.ts';
import { WaysTable } from './WaysTable.tsx';

export interface OutingDetailProps {
  outing: TaskOuting;
  /** All steps of the task, in order. */
  steps: readonly TaskStep[];
  stock: readonly Item[];
  plan: ResolvedPlan;
  missing: readonly Missing[];
  problems: readonly PlanProblem[];
  /** How it runs, as it becomes known. */
  course: CourseState;
  /** Its planned bags; null where none are. */
  planned: BagOuting | null;
  onOrder: (order: OrderProposal) => void;
  onSwap: (swap: SwapProposal) => void;
  headingRef: Ref<HTMLHeadingElement>;
  actions: ReactNode;
}

export function OutingDetail(props: OutingDetailProps) {
  const { outing, steps, stock, plan, missing, problems, course, planned, headingRef, actions } = props;
  const { onOrder, onSwap } = props;
  const problemsId = useId();
  const [drawn, setDrawn] = useState<{ outing: string; changed: ReadonlyMap<string, boolean> }>({
    outing: outing.code,
    changed: new Map(),
  });
  const name = outing.name ?? `Outing ${outing.code}`;
  const numbers = useMemo(() => new Map(steps.map(({ id }, index) => [id, index + 1])), [steps]);
  const names = useMemo(() => new Map(steps.map((step) => [step.id, stepName(step)])), [steps]);
  const numberOf = useCallback((id: string) => numbers.get(id) ?? 0, [numbers]);
  const nameOf = useCallback((id: string) => names.get(id) ?? '', [names]);
  const own = useMemo(() => steps.filter((step) => step.outing === outing.code), [steps, outing.code]);
  const schedule = useMemo(() => scheduleOf(own), [own]);
  const { followed } = course;
  const found = useMemo(
    () => followed?.ledger.problems.filter((problem) => problem.outing === outing.code) ?? [],
    [followed, outing.code],
  );
  const lines = useMemo(
    () => (followed === null ? [] : linesOf(followed, outing.code, schedule, found)),
    [followed, outing.code, schedule, found],
  );
  const shown = useMemo(() => {
    const keys = shownUnasked(lines);
    // What was chosen for another outing says nothing of this one.
    for (const [key, isShown] of drawn.outing === outing.code ? drawn.changed : []) {
      if (isShown) keys.add(key);
      else keys.delete(key);
    }
    return keys;
  }, [lines, drawn, outing.code]);
  const shownLines = useMemo(() => lines.filter(({ key }) => shown.has(key)), [lines, shown]);
  const show = (key: string, isShown: boolean): void =>
    setDrawn(({ outing: of, changed }) => ({
      outing: outing.code,
      changed: new Map([...(of === outing.code ? changed : []), [key, isShown]]),
    }));
  const labelOf = useCallback(
    ({ id, kind, quantity, washers }: FollowedLine): string => {
      const washer = quantity === 0;
      const what = `${washer ? washers : quantity} × ${pieceName(plan, id, washer ? 'washer' : kind)}`;
      return !washer && washers > 0 ? `${what}, with ${countOf(washers, 'washer')}` : what;
    },
    [plan],
  );
  const stepWords = useCallback(
    (code: string) => {
      const step = steps.find((one) => one.code === code);
      return step === undefined ? { number: 0, name: code } : { number: numberOf(step.id), name: stepName(step) };
    },
    [steps, numberOf],
  );
  const stepCalled = useCallback(
    (code: string): string => {
      const step = steps.find((one) => one.code === code);
      return step === undefined ? `step ${code}` : `step ${numberOf(step.id)}, ${stepName(step)},`;
    },
    [steps, numberOf],
  );
  const bagNames = outing.bags.map((code) => {
    const bag = stock.find((item) => item.kind === 'bag' && item.code === code);
    return bag === undefined ? `${code} (on none of the task’s shelves)` : (bag.name ?? code);
  });
  const untimed = schedule.spans.filter(({ step }) => step.minutes === undefined).length;
  const lacking = missing.filter(({ table, id }) => table === 'outings' && id === outing.id);
  const limit = outing.minutesMax === undefined ? 'no limit said' : `at most ${showNumber(outing.minutesMax)} min`;
  return (
    <article className="bw-task-sheet" aria-labelledby="outing-heading">
      <header className="bw-task-head">
        <h1 id="outing-heading" ref={headingRef} tabIndex={-1} className="bw-heading">
          {name}
        </h1>
        <span className="bw-second">
          {countOf(schedule.spans.length + schedule.aside.length, 'step')} · {showNumber(schedule.workMin)} min of work
          · {showNumber(schedule.endMin)} min out, {limit}
        </span>
      </header>
      {actions}
      {lacking.length === 0 ? null : (
        <ul className="bw-needs">
          {lacking.map(({ path, reason }) => (
            <li key={`${path} ${reason}`}>
              <StateMark state="not-complete" /> {reason}
            </li>
          ))}
        </ul>
      )}
      <Timeline
        name={name}
        schedule={schedule}
        roles={outing.roles}
        minutesMax={outing.minutesMax ?? null}
        turnMin={
          outing.minutesMax === undefined || outing.turnBack === undefined ? null : outing.minutesMax - outing.turnBack
        }
        plan={plan}
        lines={shownLines}
        labelOf={labelOf}
        problems={found}
        problemsId={problemsId}
        numberOf={numberOf}
        nameOf={nameOf}
        stepCalled={stepCalled}
      />
      {lines.length === 0 ? null : (
        <WaysTable plan={plan} lines={lines} labelOf={labelOf} shown={shown} onShow={show} />
      )}
      {untimed === 0 ? null : (
        <p className="bw-second bw-small">
          {countOf(untimed, 'step')} of this outing {untimed === 1 ? 'says' : 'say'} no time: drawn as a stroke, counted
          as 0 min.
        </p>
      )}
      <OutingProblems plan={plan} problems={problems} followed={found} id={problemsId} stepCalled={stepCalled} />
      <CourseTable schedule={schedule} numberOf={numberOf} />
      <CourseParts
        outing={outing}
        steps={own}
        plan={plan}
        course={course}
        planned={planned}
        stepWords={stepWords}
        stepCalled={stepCalled}
        onOrder={onOrder}
        onSwap={onSwap}
      />
      <Facts
        facts={[
          [
            'Code',
            <span key="code" className="bw-code">
              {outing.code}
            </span>,
          ],
          ['Roles', outing.roles.length === 0 ? 'none yet: a step needs one' : outing.roles.join(', ')],
          ['Bags', bagNames.length === 0 ? 'none yet: what is taken along needs one' : bagNames.join(', ')],
          ['Notes', outing.notes],
        ]}
      />
    </article>
  );
}
