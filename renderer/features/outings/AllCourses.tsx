import type { PlanProblem } from '../../../shared-types/bag.ts';
import type { TaskOuting } from '../../../shared-types/records/task.ts';
import { placeAddress } from '../../store/place.ts';
import { CourseDrawing } from './CourseDrawing.tsx';
import type { CourseDrawingProps } from './CourseDrawing.tsx';
import type { Schedule } from './schedule.ts';

export interface AllCoursesProps extends Omit<
  CourseDrawingProps,
  'outing' | 'name' | 'schedule' | 'sharedMin' | 'problems'
> {
  /** In the order in which they go out, each with its course. */
  courses: readonly { outing: TaskOuting; schedule: Schedule }[];
  problems: readonly PlanProblem[];
}

/** Every outing of the task, one below the other at one scale: what one leaves out lies there in the next. */
export function AllCourses({ courses, problems, ...rest }: AllCoursesProps) {
  const sharedMin = Math.max(
    ...courses.map(({ outing, schedule }) => Math.max(schedule.endMin, outing.minutesMax ?? 0)),
  );
  return courses.map(({ outing, schedule }, index) => {
    const name = outing.name ?? `Outing ${outing.code}`;
    return (
      <section key={outing.id} className="bw-course-part" aria-label={`Course of ${name}`}>
        <h2>
          <a className="bw-course-link" href={placeAddress({ at: 'outings', outing: outing.code })}>
            {`${index + 1} · ${name}`}
          </a>
        </h2>
        <CourseDrawing
          {...rest}
          outing={outing}
          name={name}
          schedule={schedule}
          sharedMin={sharedMin}
          problems={problems.filter((problem) => problem.outing === outing.code)}
        />
      </section>
    );
  });
}
