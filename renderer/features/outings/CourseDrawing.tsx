import { useCallback, useId, useMemo, useState } from 'react';
import type { PlanProblem } from '../../../shared-types/bag.ts';
import type { TaskOuting, TaskStep } from '../../../shared-types/records/task.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { CourseFollowed } from '../../workers/courseMessages.ts';
import { countOf } from '../steps/words.ts';
import { pieceName } from './courseWords.ts';
import { linesOf, shownUnasked } from './followedLines.ts';
import type { FollowedLine } from './followedLines.ts';
import { OutingProblems } from './OutingProblems.tsx';
import { inOrderOfTime } from './problemMarksLayout.ts';
import type { Schedule } from './schedule.ts';
import { Timeline } from './Timeline.tsx';
import { WaysTable } from './WaysTable.tsx';

export interface CourseDrawingProps {
  outing: TaskOuting;
  name: string;
  schedule: Schedule;
  /** So many minutes have room on the axis where outings one below the other have one scale; else null. */
  sharedMin: number | null;
  plan: ResolvedPlan;
  /** Where everything is; null until it is known. */
  followed: CourseFollowed | null;
  /** It will not be known. */
  failed: boolean;
  problems: readonly PlanProblem[];
  numberOf: (id: string) => number;
  nameOf: (id: string) => string;
  stepCalled: (code: string) => string;
}

/** One outing's course: the drawing, its table, what is not said, and what is wrong with it. */
export function CourseDrawing(props: CourseDrawingProps) {
  const { outing, name, schedule, sharedMin, plan, followed, failed, problems, numberOf, nameOf, stepCalled } = props;
  const problemsId = useId();
  const [changed, setChanged] = useState<ReadonlyMap<string, boolean>>(new Map());
  const found = useMemo(
    () => inOrderOfTime(followed?.ledger.problems.filter((problem) => problem.outing === outing.code) ?? [], schedule),
    [followed, outing.code, schedule],
  );
  const lines = useMemo(
    () => (followed === null ? [] : linesOf(followed, outing.code, schedule, found)),
    [followed, outing.code, schedule, found],
  );
  const shown = useMemo(() => {
    const keys = shownUnasked(lines);
    for (const [key, isShown] of changed) {
      if (isShown) keys.add(key);
      else keys.delete(key);
    }
    return keys;
  }, [lines, changed]);
  const shownLines = useMemo(() => lines.filter(({ key }) => shown.has(key)), [lines, shown]);
  const labelOf = useCallback(
    ({ id, kind, quantity, washers }: FollowedLine): string => {
      const washer = quantity === 0;
      const what = `${washer ? washers : quantity} × ${pieceName(plan, id, washer ? 'washer' : kind)}`;
      return !washer && washers > 0 ? `${what}, with ${countOf(washers, 'washer')}` : what;
    },
    [plan],
  );
  const untimed = schedule.spans.filter(({ step }: { step: TaskStep }) => step.minutes === undefined).length;
  const { minutesMax, turnBack } = outing;
  return (
    <>
      <Timeline
        name={name}
        schedule={schedule}
        roles={outing.roles}
        minutesMax={minutesMax ?? null}
        turnMin={minutesMax === undefined || turnBack === undefined ? null : minutesMax - turnBack}
        sharedMin={sharedMin}
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
        <WaysTable
          plan={plan}
          lines={lines}
          labelOf={labelOf}
          shown={shown}
          onShow={(key, isShown) => setChanged((before) => new Map([...before, [key, isShown]]))}
        />
      )}
      {untimed === 0 ? null : (
        <p className="bw-second bw-small">
          {countOf(untimed, 'step')} of this outing {untimed === 1 ? 'says' : 'say'} no time: drawn as a stroke, counted
          as 0 min.
        </p>
      )}
      <OutingProblems
        plan={plan}
        problems={problems}
        followed={found}
        following={followed !== null ? 'done' : failed ? 'failed' : 'running'}
        of={sharedMin === null ? null : name}
        id={problemsId}
        stepCalled={stepCalled}
      />
    </>
  );
}
