import { useCallback, useMemo } from 'react';
import type { ReactNode, Ref } from 'react';
import type { PlanProblem } from '../../../shared-types/bag.ts';
import type { Item } from '../../../shared-types/records/item.ts';
import type { TaskOuting, TaskStep } from '../../../shared-types/records/task.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { Missing } from '../../engine/records/readableTask.ts';
import { showNumber } from '../../engine/units/index.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { stepName } from '../steps/stepTexts.ts';
import { countOf } from '../steps/words.ts';
import { Facts } from '../task/Facts.tsx';
import { CourseTable } from './CourseTable.tsx';
import { OutingProblems } from './OutingProblems.tsx';
import { scheduleOf } from './schedule.ts';
import { Timeline } from './Timeline.tsx';

export interface OutingDetailProps {
  outing: TaskOuting;
  /** All steps of the task, in order. */
  steps: readonly TaskStep[];
  stock: readonly Item[];
  plan: ResolvedPlan;
  missing: readonly Missing[];
  problems: readonly PlanProblem[];
  headingRef: Ref<HTMLHeadingElement>;
  actions: ReactNode;
}

export function OutingDetail(props: OutingDetailProps) {
  const { outing, steps, stock, plan, missing, problems, headingRef, actions } = props;
  const name = outing.name ?? `Outing ${outing.code}`;
  const numbers = useMemo(() => new Map(steps.map(({ id }, index) => [id, index + 1])), [steps]);
  const names = useMemo(() => new Map(steps.map((step) => [step.id, stepName(step)])), [steps]);
  const numberOf = useCallback((id: string) => numbers.get(id) ?? 0, [numbers]);
  const nameOf = useCallback((id: string) => names.get(id) ?? '', [names]);
  const schedule = useMemo(() => scheduleOf(steps.filter((step) => step.outing === outing.code)), [steps, outing.code]);
  const stepCalled = (code: string): string => {
    const step = steps.find((one) => one.code === code);
    return step === undefined ? `step ${code}` : `step ${numberOf(step.id)}, ${stepName(step)},`;
  };
  const bagNames = outing.bags.map((code) => {
    const bag = stock.find((item) => item.kind === 'bag' && item.code === code);
    return bag === undefined ? `${code} (on none of the task’s shelves)` : (bag.name ?? code);
  });
  const untimed = schedule.spans.filter(({ step }) => step.minutes === undefined).length;
  const own = missing.filter(({ table, id }) => table === 'outings' && id === outing.id);
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
      {own.length === 0 ? null : (
        <ul className="bw-needs">
          {own.map(({ path, reason }) => (
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
        numberOf={numberOf}
        nameOf={nameOf}
      />
      {untimed === 0 ? null : (
        <p className="bw-second bw-small">
          {countOf(untimed, 'step')} of this outing {untimed === 1 ? 'says' : 'say'} no time: drawn as a stroke, counted
          as 0 min.
        </p>
      )}
      <OutingProblems plan={plan} problems={problems} stepCalled={stepCalled} />
      <CourseTable schedule={schedule} numberOf={numberOf} />
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
