import { useEffect, useState } from 'react';
import { Button } from '@mantine/core';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { showNumber } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { amountText, objectiveUnits, objectiveWords } from './amounts.ts';
import { toleranceWords } from './asked.ts';
import { gapText } from './BagHeading.tsx';
import type { PlanningState } from './planning.ts';
import { SearchCourse } from './SearchCourse.tsx';

export interface PlanningPanelProps {
  plan: ResolvedPlan;
  running: Extract<PlanningState, { kind: 'running' }>;
  units: UnitsShown;
  onCancel: () => void;
}

/** How far the search is: best found, what nothing can be below, seconds; and the way out. */
function useElapsedS(since: Date): number {
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    const timer = setInterval(() => setNow(Date.now()), 500);
    return () => clearInterval(timer);
  }, []);
  return Math.max(0, Math.floor((now - since.getTime()) / 1000));
}

export function PlanningPanel({ plan, running, units, onCancel }: PlanningPanelProps) {
  const { asked, progress, course, since } = running;
  const elapsedS = useElapsedS(since);
  const unit = objectiveUnits[asked.minimised];
  const at = plan.outings.findIndex(({ id }) => id === progress?.outing);
  const outing = plan.outings[at];
  const best = progress?.best ?? null;
  const bound = progress?.bound ?? null;
  const gap = best === null || bound === null || best <= 0 ? null : Math.max(0, (best - bound) / best);
  return (
    <section className="bw-planning" aria-labelledby="planning-heading">
      <h2 id="planning-heading">Planning for {objectiveWords[asked.minimised]}</h2>
      <dl className="bw-facts">
        <dt>Outing</dt>
        <dd>
          {outing === undefined ? 'finding what reaches' : `${outing.name} (${at + 1} of ${plan.outings.length})`}
        </dd>
        <dt>Shall stand</dt>
        <dd>{toleranceWords[asked.tolerance]}</dd>
        <dt>Best found</dt>
        <dd>{best === null ? 'none yet' : amountText(best, unit, units)}</dd>
        <dt>Nothing below</dt>
        <dd>
          {bound === null ? 'not known yet' : amountText(bound, unit, units)}
          {gap === null ? '' : `, ${gapText(gap)} still open`}
        </dd>
        <dt>For</dt>
        <dd>
          {elapsedS} s{asked.timeLimitS === null ? '' : ` of ${showNumber(asked.timeLimitS)} s`}
        </dd>
      </dl>
      {course.length === 0 ? null : (
        <SearchCourse
          plan={plan}
          moments={course}
          untilS={Math.max(elapsedS, progress?.elapsedS ?? 0)}
          minimised={asked.minimised}
          units={units}
        />
      )}
      <Button onClick={onCancel}>Cancel planning</Button>
    </section>
  );
}
