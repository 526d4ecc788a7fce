import type { BagResult } from '../../../shared-types/bag.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { Missing } from '../../engine/records/readableTask.ts';
import type { UnitsShown } from '../../engine/units/index.ts';
import { PlanSteps } from './PlanSteps.tsx';
import { TaskSteps } from './TaskSteps.tsx';

export interface StepsSheetProps {
  /** Key of the kept task; absent for a plan that came as a file and is only looked at. */
  taskId?: string;
  /** Of a kept task, all that can be read; null while it is being read. */
  plan: ResolvedPlan | null;
  /** What the plan lacks of the task, and why. */
  incomplete?: readonly Missing[];
  /** Code of the step in hand; the first one where the address names none or one that is not there. */
  stepId: string | undefined;
  result: BagResult | null;
  units: UnitsShown;
}

const none: readonly Missing[] = [];

export function StepsSheet({ taskId, plan, incomplete = none, ...rest }: StepsSheetProps) {
  if (taskId !== undefined) return <TaskSteps taskId={taskId} plan={plan} incomplete={incomplete} {...rest} />;
  return plan === null ? null : <PlanSteps plan={plan} {...rest} />;
}
