import type { StopLimit } from '../../../shared-types/joint.ts';
import { RefusedError } from '../errors.ts';
import { rootShearTorqueNm } from '../loosening/rootShear.ts';
import { stopLimit } from '../loosening/stopLimit.ts';
import type { ResolvedPlan, ResolvedStep } from '../plan/resolved.ts';
import type { StackParts } from '../stack/stackTask.ts';
import { readStrength } from '../strength/index.ts';
import { readThread } from '../thread/index.ts';

export interface CardStop extends StopLimit {
  /** What the limit leaves out. */
  note: string;
}

/**
 * Torque at which to stop when a fastener will not turn: the weakest part of the string that turns it, and its own thread's root where
 * its strength is held. What it is seated with is not known to a plan, so that the root counts as unloaded.
 */
export function stopOfStack(
  plan: ResolvedPlan,
  step: ResolvedStep,
  { tool, extensions, socket }: StackParts,
): CardStop {
  const parts = [
    { name: tool.id, ratedNm: tool.maxNm },
    ...extensions.map(({ id, ratedNm }) => ({ name: id, ratedNm })),
    { name: socket.id, ratedNm: socket.ratedNm },
  ];
  const root = rootOf(plan, step);
  if (typeof root === 'string')
    return { ...stopLimit(parts), note: `The stop limit is without the fastener itself: ${root}.` };
  const all = stopLimit([...parts, { name: 'root of the thread', ratedNm: root.ratedNm }]);
  return { ...all, note: 'The stop limit has the root of the thread without preload: seated, it bears less.' };
}

function rootOf(plan: ResolvedPlan, step: ResolvedStep): { ratedNm: number } | string {
  const id = step.fastener?.id ?? '';
  const strength = plan.source.catalog.fasteners.find((one) => one.id === id)?.strength;
  if (step.fastener === null || strength === undefined) return 'its strength is not given';
  try {
    const thread = readThread(step.fastener.thread);
    const { yieldMPa } = readStrength(strength, { thread, field: 'strength' });
    if (yieldMPa === null) return 'its yield strength is not held';
    if (thread.rootDiameterMm === null) return 'no root diameter is held for its thread';
    return { ratedNm: rootShearTorqueNm({ rootDiameterMm: thread.rootDiameterMm, yieldMPa, preloadN: 0 }) };
  } catch (error) {
    if (error instanceof RefusedError) return 'its strength cannot be read';
    throw error;
  }
}
