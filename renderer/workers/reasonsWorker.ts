/// <reference lib="webworker" />
import { findReasons } from '../engine/bag/reasons/bagReasons.ts';
import { loadSolver } from '../engine/bag/solver.ts';
import { RefusedError } from '../engine/errors.ts';
import { readPlan } from '../engine/plan/readPlan.ts';
import type { ReasonsMessage, ReasonsTask } from './reasonsMessages.ts';

function send(message: ReasonsMessage): void {
  self.postMessage(message);
}

async function find({ plan, file, result, parts, solverAddress, ...options }: ReasonsTask): Promise<void> {
  try {
    const solver = await loadSolver(() => solverAddress);
    const reasons = findReasons(readPlan(plan, file), result, { ...options, solver }, parts);
    for await (const reason of reasons) send({ kind: 'found', reason });
    send({ kind: 'done' });
  } catch (error) {
    const refusal =
      error instanceof RefusedError ? error.refusal : { code: 'internal' as const, message: String(error) };
    send({ kind: 'refused', refusal });
  }
}

self.addEventListener('message', (event: MessageEvent<ReasonsTask>) => void find(event.data));
