import solverAddress from 'highs/runtime?url';
import type { BagResult } from '../../shared-types/bag.ts';
import { RefusedError } from '../engine/errors.ts';
import type { PlannerMessage, PlannerProgress, PlannerTask } from './plannerMessages.ts';

export type { PlannerProgress } from './plannerMessages.ts';

export interface Planning {
  result: Promise<BagResult>;
  onProgress(listener: (progress: PlannerProgress) => void): void;
  /** Ends the work at once; `result` is then refused with a PlanningCancelled. */
  cancel(): void;
}

class PlanningCancelled extends Error {
  override readonly name = 'PlanningCancelled';
}

/**
 * Plans a plan's bags in a worker of their own, so that the window never waits. A solve cannot be asked to stop half
 * way; cancelling ends its worker.
 */
export function startPlanning(plan: string, options: Omit<PlannerTask, 'plan' | 'solverAddress'>): Planning {
  const worker = new Worker(new URL('./plannerWorker.ts', import.meta.url), { type: 'module' });
  const listeners: ((progress: PlannerProgress) => void)[] = [];
  let refuse: (reason: Error) => void = () => undefined;

  const result = new Promise<BagResult>((resolve, reject) => {
    refuse = reject;
    worker.addEventListener('message', ({ data }: MessageEvent<PlannerMessage>) => {
      if (data.kind === 'progress') for (const listener of listeners) listener(data.progress);
      else if (data.kind === 'result') resolve(data.result);
      else reject(new RefusedError(data.refusal));
    });
    worker.addEventListener('error', (event) => reject(new Error(`the planner stopped: ${event.message}`)));
  }).finally(() => worker.terminate());

  const task: PlannerTask = { plan, solverAddress: new URL(solverAddress, document.baseURI).href, ...options };
  worker.postMessage(task);
  return {
    result,
    onProgress: (listener) => void listeners.push(listener),
    cancel: () => refuse(new PlanningCancelled('planning was cancelled')),
  };
}
