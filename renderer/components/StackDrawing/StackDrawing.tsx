import type { ResolvedPlan, ResolvedStep } from '../../engine/plan/resolved.ts';
import type { UnitsShown } from '../../engine/units/index.ts';

export interface StackDrawingProps {
  plan: ResolvedPlan;
  /** For a stack that holds against turning, the step with the held fastener and its access in their places. */
  step: ResolvedStep;
  /** Ids from the tool to the socket; a closest fit that fails is drawn with its shortfall. */
  stack: string[];
  units: UnitsShown;
}

/** A stack in its access hole, to scale. */
export function StackDrawing({ plan, stack }: StackDrawingProps) {
  return (
    <ol>
      {stack.map((id, index) => (
        <li key={index}>{plan.carried.get(id)?.name ?? id}</li>
      ))}
    </ol>
  );
}
