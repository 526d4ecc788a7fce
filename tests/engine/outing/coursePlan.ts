import type { PlanStep } from '../../../shared-types/plan.ts';

/** A step by hand, with what else is said of it. */
export function step(id: string, role: string, says: Partial<PlanStep> = {}): PlanStep {
  return { id, outing: 'O1', role, action: 'use', ...says };
}

/** A plan of one outing with roles Lead and Second, in which only the course matters. All figures invented. */
export function coursePlan(x: {
  steps: PlanStep[];
  outing?: Record<string, unknown>;
  catalog?: Record<string, unknown>;
  places?: { id: string; final?: boolean }[];
}): Record<string, unknown> {
  return {
    catalog: x.catalog ?? {},
    outings: [{ id: 'O1', roles: ['Lead', 'Second'], bags: [], ...x.outing }],
    steps: x.steps,
    ...(x.places === undefined ? {} : { places: x.places }),
  };
}
