/// <reference lib="webworker" />
import { findReasons } from '../engine/bag/reasons/bagReasons.ts';
import { loadSolver } from '../engine/bag/solver.ts';
import { RefusedError } from '../engine/errors.ts';
import { readPlan } from '../engine/plan/readPlan.ts';
import type { LookedAt, ReasonsMessage, ReasonsTask } from './reasonsMessages.ts';

function send(message: ReasonsMessage): void {
  self.postMessage(message);
}

let lookedAt: LookedAt | null = null;

/** The page's messages are taken in between two findings. */
const takeMessages = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

async function find({ plan, file, result, parts, solverAddress, ...options }: ReasonsTask): Promise<void> {
  try {
    const solver = await loadSolver(() => solverAddress);
    const reasons = findReasons(readPlan(plan, file), result, { ...options, solver }, parts, () => lookedAt);
    await takeMessages();
    for await (const reason of reasons) {
      send({ kind: 'found', reason });
      await takeMessages();
    }
    send({ kind: 'done' });
  } catch (error) {
    const refusal =
      error instanceof RefusedError ? error.refusal : { code: 'internal' as const, message: String(error) };
    send({ kind: 'refused', refusal });
  }
}

self.addEventListener('message', ({ data }: MessageEvent<ReasonsTask | LookedAt>) => {
  if ('plan' in data) void find(data);
  else lookedAt = data;
});
