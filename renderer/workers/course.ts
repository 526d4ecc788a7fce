import type { CourseResult } from '../../shared-types/outing.ts';
import { RefusedError } from '../engine/errors.ts';
import type { CourseAsked, CourseFollowed, CourseMessage } from './courseMessages.ts';

export type { CourseAsked, CourseFollowed } from './courseMessages.ts';

/** Follows a plan's outings in a worker of their own, so that the window never waits. */
export function startCourse(
  asked: CourseAsked,
  told: {
    followed: (followed: CourseFollowed) => void;
    done: (course: CourseResult) => void;
    failed: (error: unknown) => void;
  },
): () => void {
  const worker = new Worker(new URL('./courseWorker.ts', import.meta.url), { type: 'module' });
  let wanted = true;
  const end = (): void => {
    wanted = false;
    worker.terminate();
  };
  worker.addEventListener('message', ({ data }: MessageEvent<CourseMessage>) => {
    // A message may be on its way while its worker is ended.
    if (!wanted) return;
    if (data.kind === 'followed') return told.followed(data.followed);
    end();
    if (data.kind === 'done') told.done(data.course);
    else told.failed(new RefusedError(data.refusal));
  });
  worker.addEventListener('error', (event) => {
    if (!wanted) return;
    end();
    told.failed(new Error(`following the outings stopped: ${event.message}`));
  });
  worker.postMessage(asked);
  return end;
}
