/// <reference lib="webworker" />
import { planBag } from '../engine/bag/planBag.ts';
import type { BagProgress } from '../engine/bag/planBag.ts';
import { loadSolver } from '../engine/bag/solver.ts';
import { RefusedError } from '../engine/errors.ts';
import { readPlan } from '../engine/plan/readPlan.ts';
import type { PlannerMessage, PlannerTask } from './plannerMessages.ts';

function send(message: PlannerMessage): void {
  self.postMessage(message);
}

async function plan(task: PlannerTask): Promise<void> {
  const began = performance.now();
  try {
    const solver = await loadSolver(() => task.solverAddress);
    const asked = {
      ...task.wishes,
      minimise: task.minimise,
      tolerance: task.tolerance,
      timeLimitS: task.timeLimitS,
      solver,
      onProgress: (progress: BagProgress) => {
        send({ kind: 'progress', progress: { ...progress, elapsedS: (performance.now() - began) / 1000 } });
      },
    };
    const result = await planBag(readPlan(task.plan, task.file), asked);
    send({ kind: 'result', result });
  } catch (error) {
    const refusal =
      error instanceof RefusedError ? error.refusal : { code: 'internal' as const, message: String(error) };
    send({ kind: 'refused', refusal });
  }
}

self.addEventListener('message', (event: MessageEvent<PlannerTask>) => void plan(event.data));
