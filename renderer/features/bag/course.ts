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
  // The last place is the end's.
  return [...(course.length < courseMost - 1 ? course : thinned(course)), moment];
}

/** Every second moment; first and last of each outing stay. */
function thinned(course: readonly SearchMoment[]): readonly SearchMoment[] {
  return course.filter(
    ({ outing }, index) =>
      index % 2 === 0 || course[index - 1]?.outing !== outing || course[index + 1]?.outing !== outing,
  );
}

/** Where the search ended: at the answer it gave for the outing it was at. */
export function ended(
  course: readonly SearchMoment[],
  plan: ResolvedPlan,
  end: { result: BagResult; minimised: Minimised; atS: number },
): SearchMoment[] {
  const { result, minimised, atS } = end;
  const last = course.at(-1);
  const answer = result.outings.find(({ id }) => id === last?.outing);
  if (last === undefined || answer === undefined) return [...course];
  const best = readdObjective(plan, [answer], minimised);
  const bound = result.status === 'optimal' ? best : last.bound;
  return [...course, { outing: last.outing, atS: Math.max(atS, last.atS), best, bound }];
}
