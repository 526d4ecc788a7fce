import { useCallback, useMemo } from 'react';
import type { ReactNode, Ref } from 'react';
import type { BagOuting, PlanProblem } from '../../../shared-types/bag.ts';
import type { OrderProposal, SwapProposal } from '../../../shared-types/outing.ts';
import type { Item } from '../../../shared-types/records/item.ts';
import type { TaskOuting, TaskStep } from '../../../shared-types/records/task.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { Missing } from '../../engine/records/readableTask.ts';
import { showNumber } from '../../engine/units/index.ts';
import { StateMark } from '../../components/StateMark/StateMark.tsx';
import { Switch } from '../../components/Switch/Switch.tsx';
import { stepName } from '../steps/stepTexts.ts';
import { countOf } from '../steps/words.ts';
import { Facts } from '../task/Facts.tsx';
import { AllCourses } from './AllCourses.tsx';
import { CourseDrawing } from './CourseDrawing.tsx';
import { CourseParts } from './CourseParts.tsx';
import { CourseTable } from './CourseTable.tsx';
import { scheduleOf } from './schedule.ts';
import type { CourseState } from './useCourse.ts';

/** The course of the outing in hand alone, or of every one. */
export type CoursesDrawn = 'one' | 'all';

const nameMost = 80;

const drawnChoices = [
  { value: 'one', label: 'This outing' },
  { value: 'all', label: 'All outings' },
] as const;

export interface OutingDetailProps {
  outing: TaskOuting;
  /** All outings of the task, in order. */
  outings: readonly TaskOuting[];
  /** Which courses are drawn. */
  drawn: CoursesDrawn;
  onDrawn: (drawn: CoursesDrawn) => void;
  /** All steps of the task, in order. */
  steps: readonly TaskStep[];
  stock: readonly Item[];
  plan: ResolvedPlan;
  missing: readonly Missing[];
  /** What the plan itself says is wrong, over all outings. */
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
  const {
    outing,
    outings,
    drawn,
    onDrawn,
    steps,
    stock,
    plan,
    missing,
    problems,
    course,
    planned,
    headingRef,
    actions,
  } = props;
  const { onOrder, onSwap } = props;
  const name = outing.name ?? `Outing ${outing.code}`;
  const numbers = useMemo(() => new Map(steps.map(({ id }, index) => [id, index + 1])), [steps]);
  const names = useMemo(() => new Map(steps.map((step) => [step.id, stepName(step)])), [steps]);
  const numberOf = useCallback((id: string) => numbers.get(id) ?? 0, [numbers]);
  const nameOf = useCallback((id: string) => names.get(id) ?? '', [names]);
  const own = useMemo(() => steps.filter((step) => step.outing === outing.code), [steps, outing.code]);
  const schedule = useMemo(() => scheduleOf(own), [own]);
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
      return step === undefined ? `step ${code}` : `step ${numberOf(step.id)}, ${shortened(stepName(step))},`;
    },
    [steps, numberOf],
  );
  const courses = useMemo(
    () =>
      outings.map((one) => ({
        outing: one,
        schedule: scheduleOf(steps.filter((step) => step.outing === one.code)),
      })),
    [outings, steps],
  );
  const common = { plan, followed: course.followed, failed: course.failed !== null, numberOf, nameOf, stepCalled };
  const bagNames = outing.bags.map((code) => {
    const bag = stock.find((item) => item.kind === 'bag' && item.code === code);
    return bag === undefined ? `${code} (on none of the task’s shelves)` : (bag.name ?? code);
  });
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
      {outings.length < 2 ? null : (
        <div className="bw-course-drawn">
          <Switch label="Courses drawn" value={drawn} choices={drawnChoices} onChange={onDrawn} />
        </div>
      )}
      {drawn === 'all' && outings.length > 1 ? (
        <AllCourses {...common} courses={courses} problems={problems} />
      ) : (
        <CourseDrawing
          key={outing.code}
          {...common}
          outing={outing}
          name={name}
          schedule={schedule}
          sharedMin={null}
          problems={problems.filter((problem) => problem.outing === outing.code)}
        />
      )}
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
          ['Carries at most', outing.carryMax?.map(({ role, mass }) => `${role} ${mass}`).join(', ')],
          ['May take each other’s steps', outing.swaps === undefined ? undefined : swapsText(outing.swaps)],
          ['Bags', bagNames.length === 0 ? 'none yet: what is taken along needs one' : bagNames.join(', ')],
          ['Notes', outing.notes],
        ]}
      />
    </article>
  );
}

/** As much of a name as a sentence bears; its own sheet says the whole. */
function shortened(name: string): string {
  return name.length <= nameMost ? name : `${name.slice(0, nameMost).trimEnd()}…`;
}

function swapsText(swaps: NonNullable<TaskOuting['swaps']>): string {
  return swaps.length === 0 ? 'nobody' : swaps.map(([one, other]) => `${one} and ${other}`).join('; ');
}
