import type { BagItem } from '../../../shared-types/bag.ts';
import type { ResolvedPlan, ResolvedStep } from '../../engine/plan/resolved.ts';
import { judgeStep } from '../../engine/stack/judgeStep.ts';
import type { StepJudgement } from '../../engine/stack/judged.ts';

/** What becomes of the steps that need an item where the whole stock of it is gone. */
export interface Without {
  /** Steps that no stack of the remaining stock reaches, or whose gear it is. */
  failing: { step: ResolvedStep; judgement: StepJudgement | null }[];
  /** Steps that another stack of the stock still reaches. */
  otherwise: { step: ResolvedStep; judgement: StepJudgement }[];
}

const less = <T>(held: ReadonlyMap<string, T>, id: string): Map<string, T> =>
  new Map([...held].filter(([key]) => key !== id));

export function withoutItem(plan: ResolvedPlan, item: Pick<BagItem, 'id' | 'because'>): Without {
  const rest: ResolvedPlan = {
    ...plan,
    tools: less(plan.tools, item.id),
    extensions: less(plan.extensions, item.id),
    sockets: less(plan.sockets, item.id),
    gear: less(plan.gear, item.id),
    carried: less(plan.carried, item.id),
  };
  const steps = plan.steps.filter(({ id }) => item.because.includes(id));
  const result: Without = { failing: [], otherwise: [] };
  for (const step of steps) {
    const isGear = step.gear.some(({ id }) => id === item.id) || step.moves.some(({ id }) => id === item.id);
    if (isGear) {
      result.failing.push({ step, judgement: null });
      continue;
    }
    const judgement = judgeStep(rest, step);
    if (judgement.state === 'not-reached') result.failing.push({ step, judgement });
    else result.otherwise.push({ step, judgement });
  }
  return result;
}
