import type { BagResult, Minimised } from '../../../shared-types/bag.ts';
import type { SearchMoment } from '../../../shared-types/records/window.ts';
import { courseMost } from '../../../shared-types/records/window.ts';
import { readdObjective } from '../../engine/bag/recheck.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';

/** The course of a search with one more moment. Moments that say nothing new are left out; a long course is thinned. */
export function withMoment(course: readonly SearchMoment[], moment: SearchMoment): readonly SearchMoment[] {
  const last = course.at(-1);
  if (last !== undefined && last.outing === moment.outing && last.best === moment.best && last.bound === moment.bound)
    return course;
  // The last places are the ends'.
  return [...(course.length < courseMost / 2 ? course : thinned(course)), moment];
}

/** Every second moment; first and last of each outing stay. */
function thinned(course: readonly SearchMoment[]): readonly SearchMoment[] {
  return course.filter(
    ({ outing }, index) =>
      index % 2 === 0 || course[index - 1]?.outing !== outing || course[index + 1]?.outing !== outing,
  );
}

/** Where the search of each outing ended: at the answer it gave, proved or with the bound it had come to. */
export function ended(
  course: readonly SearchMoment[],
  plan: ResolvedPlan,
  end: { result: BagResult; minimised: Minimised; atS: number },
): SearchMoment[] {
  const { result, minimised, atS } = end;
  return course.flatMap((moment, index) => {
    const next = course[index + 1];
    const answer = result.outings.find(({ id }) => id === moment.outing);
    if (next?.outing === moment.outing || answer === undefined) return [moment];
    const best = readdObjective(plan, [answer], minimised);
    const bound = result.status === 'optimal' ? best : moment.bound;
    return [moment, { outing: moment.outing, atS: Math.max(next?.atS ?? atS, moment.atS), best, bound }];
  });
}
