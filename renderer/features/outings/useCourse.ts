import { useEffect, useState } from 'react';
import type { BagOuting } from '../../../shared-types/bag.ts';
import type { CourseResult } from '../../../shared-types/outing.ts';
import { refusalOf } from '../../store/session.ts';
import { startCourse } from '../../workers/course.ts';
import type { CourseFollowed } from '../../workers/course.ts';

export interface CourseState {
  /** Where everything is; null until it is known. */
  followed: CourseFollowed | null;
  /** Clock, chance and proposals; null until they are known. */
  course: CourseResult | null;
  /** Why no more comes; null where it does. */
  failed: string | null;
}

const nothing: CourseState = { followed: null, course: null, failed: null };
/** No bag is planned: one list for all, so that its course is looked for once. */
const noBags: readonly BagOuting[] = [];

/** What was followed to the end stays as long as the bags it was followed with; the last plan without any stays too. */
const ended = new WeakMap<readonly BagOuting[], { text: string; state: CourseState }>();

/** How the outings run, as it becomes known, in a worker. */
export function useCourse(text: string, file: string, planned: readonly BagOuting[] | null): CourseState {
  const outings = planned ?? noBags;
  const [held, setHeld] = useState<{ text: string; outings: readonly BagOuting[]; state: CourseState } | null>(null);
  useEffect(() => {
    if (ended.get(outings)?.text === text) return undefined;
    let state = nothing;
    const tell = (change: Partial<CourseState>): void => {
      state = { ...state, ...change };
      if (state.course !== null) ended.set(outings, { text, state });
      setHeld({ text, outings, state });
    };
    return startCourse(
      { plan: text, file, outings: [...outings] },
      {
        followed: (followed) => tell({ followed }),
        done: (course) => tell({ course }),
        failed: (error) => tell({ failed: refusalOf(error).message }),
      },
    );
  }, [text, file, outings]);
  const known = ended.get(outings);
  if (known?.text === text) return known.state;
  return held !== null && held.text === text && held.outings === outings ? held.state : nothing;
}
