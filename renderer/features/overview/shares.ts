import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { KeptResult } from '../../store/session.ts';
import { bagTotals } from '../bag/amounts.ts';

/** What one role does, outing by outing. */
export interface Share {
  role: string;
  /** Numbers of its steps; minutes of those that are sure to be done. */
  outings: { id: string; steps: number[]; minutes: number }[];
}

export function sharesOf(plan: ResolvedPlan): Share[] {
  const roles = [...new Set(plan.outings.flatMap((outing) => outing.roles))];
  return roles.map((role) => ({
    role,
    outings: plan.outings.map(({ id }) => {
      const own = plan.steps.flatMap((step, index) =>
        step.outing === id && step.role === role ? [{ step, index }] : [],
      );
      return {
        id,
        steps: own.map(({ index }) => index + 1),
        minutes: own.reduce((sum, { step }) => sum + (step.contingency ? 0 : step.minutes), 0),
      };
    }),
  }));
}

/** What the role's own bags hold on its heaviest outing [kg], the bags' own mass not counted; null without such a bag. */
export function carriedBy(plan: ResolvedPlan, role: string, result: KeptResult): number | null {
  const own = new Set([...plan.bags.values()].filter((bag) => bag.role === role).map(({ id }) => id));
  if (own.size === 0) return null;
  const sums = result.result.outings.map((outing) =>
    bagTotals(plan, outing)
      .filter(({ bag }) => own.has(bag.id))
      .reduce((sum, { contentsKg }) => sum + contentsKg, 0),
  );
  return Math.max(0, ...sums);
}
