import type { KeptResult as ResultRecord, PastAnswer } from '../../shared-types/records/window.ts';
import { pastMost } from '../../shared-types/records/window.ts';
import type { ResolvedPlan } from '../engine/plan/resolved.ts';

/** An answer as a window holds it: the record without what only its keeping needs. */
export type KeptResult = Omit<ResultRecord, 'id' | 'rev' | 'planHash' | 'past'>;

/** An answer with names and masses as its plan has them, so that it can be read after the plan has changed. */
export function pastOf(plan: ResolvedPlan, planHash: string, kept: KeptResult): PastAnswer {
  const { result, course: _course, ...asked } = kept;
  return {
    ...asked,
    planHash,
    status: result.status,
    objective: objectiveOf(kept),
    outings: result.outings.map(({ id, massKg, items }) => ({
      ...{ id, massKg },
      name: plan.outings.find((outing) => outing.id === id)?.name ?? id,
      bags: [...new Set(items.map(({ bag }) => bag))].map((bag) => {
        const { name = bag, massKg: ownKg = 0 } = plan.bags.get(bag) ?? {};
        return { id: bag, name, massKg: ownKg };
      }),
      lines: items.map(({ id: item, quantity, bag }) => {
        const { name = item, massKg: eachKg = 0, volumeL = null } = plan.carried.get(item) ?? {};
        return { id: item, name, quantity, bag, massKg: eachKg, volumeL };
      }),
    })),
  };
}

function objectiveOf({ result: { objective } }: KeptResult): PastAnswer['objective'] {
  if (objective === null) return null;
  const { value, unit, bound, gap } = objective;
  return { value, unit, bound, gap };
}

/** The newest first; the same question asked again of the same task replaces its answer, the oldest give way. */
export function withAnswer(past: readonly PastAnswer[], answer: PastAnswer): PastAnswer[] {
  const question = questionOf(answer);
  return [answer, ...past.filter((one) => questionOf(one) !== question)].slice(0, pastMost);
}

function questionOf({ planHash, minimised, tolerance, wishes, timeLimitS }: PastAnswer): string {
  const { keep = [], forbid = [], spares = [] } = wishes ?? {};
  return JSON.stringify([planHash, minimised, tolerance ?? 'nothing', keep, forbid, spares, timeLimitS]);
}
