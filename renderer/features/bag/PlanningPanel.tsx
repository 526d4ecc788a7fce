import { useEffect, useState } from 'react';
import { Button } from '@mantine/core';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { showNumber } from '../../engine/units/index.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { amountText, objectiveUnits, objectiveWords } from './amounts.ts';
import type { PlanningState } from './planning.ts';

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
  const { asked, progress, since } = running;
  const elapsedS = useElapsedS(since);
  const unit = objectiveUnits[asked.minimised];
  const outing = plan.outings.find(({ id }) => id === progress?.outing);
  const best = progress?.best ?? null;
  const bound = progress?.bound ?? null;
  const share = best === null || bound === null || best <= 0 ? null : Math.min(Math.max(bound / best, 0), 1);
  return (
    <section className="bw-planning" aria-labelledby="planning-heading">
      <h2 id="planning-heading">Planning for {objectiveWords[asked.minimised]}</h2>
      <progress aria-label="Bound as a share of the best found" max={1} {...(share === null ? {} : { value: share })} />
      <dl className="bw-facts">
        <dt>Outing</dt>
        <dd>{outing?.name ?? 'finding what reaches'}</dd>
        <dt>Best found</dt>
        <dd>{best === null ? 'none yet' : amountText(best, unit, units)}</dd>
        <dt>Nothing below</dt>
        <dd>{bound === null ? 'not known yet' : amountText(bound, unit, units)}</dd>
        <dt>For</dt>
        <dd>
          {elapsedS} s{asked.timeLimitS === null ? '' : ` of ${showNumber(asked.timeLimitS)} s`}
        </dd>
      </dl>
      <Button onClick={onCancel}>Cancel planning</Button>
    </section>
  );
}
