import type { LossReason, StepConflict } from '../../../../../shared-types/bagReasons.ts';
import type { ResolvedPlan } from '../../../plan/resolved.ts';
import type { ReasonsOptions } from '../ask.ts';
import { lossesNotSurvived } from './losses.ts';
import { stepConflicts } from './stepConflicts.ts';

/** Why an outing has no bag, beyond the steps that have no stack: losses not survived, steps that do not go together. */
export async function faultsOf(
  plan: ResolvedPlan,
  outing: string,
  options: ReasonsOptions,
): Promise<{ conflicts: StepConflict[]; losses: LossReason[] }> {
  const losses = await lossesNotSurvived(plan, outing, options);
  const except = losses.map(({ step }) => step);
  return { losses, conflicts: await stepConflicts(plan, outing, options, { except }) };
}
