import { RefusedError } from '../engine/errors.ts';
import type { LikeliestAsked, LikeliestFound, LikeliestTold } from './likeliestMessages.ts';

export type { LikeliestAsked, LikeliestFound } from './likeliestMessages.ts';

/** Draws for the likeliest setting in a worker of its own: the same seed, the same answer, and the window never waits. */
export function findLikeliest(asked: LikeliestAsked): { found: Promise<LikeliestFound>; cancel: () => void } {
  const worker = new Worker(new URL('./likeliestWorker.ts', import.meta.url), { type: 'module' });
  const found = new Promise<LikeliestFound>((resolve, reject) => {
    worker.addEventListener('message', ({ data }: MessageEvent<LikeliestTold>) => {
      worker.terminate();
      if ('found' in data) resolve(data.found);
      else reject(new RefusedError(data.refusal));
    });
    worker.addEventListener('error', (event) => {
      worker.terminate();
      reject(new RefusedError({ code: 'internal', message: `Drawing the settings stopped: ${event.message}` }));
    });
  });
  worker.postMessage(asked);
  return { found, cancel: () => worker.terminate() };
}
