import type { ResolvedStep } from '../plan/resolved.ts';
import { scheduleOf } from './clock.ts';

/** Something a ledger writes down: a step is begun, or done. */
export interface StepEvent {
  step: ResolvedStep;
  moment: 'begun' | 'done';
}

/**
 * The beginnings and ends of an outing's steps in the order in which they come. Steps of one slot overlap as the clock has
 * them; a contingency step stands alone where it is listed.
 */
export function sequenceOf(steps: readonly ResolvedStep[]): StepEvent[] {
  const begunSlots = new Set<string>();
  return steps.flatMap((step) => {
    const { slot } = step;
    if (slot === null || step.contingency) return alone(step);
    if (begunSlots.has(slot)) return [];
    begunSlots.add(slot);
    return atOnce(steps.filter((other) => other.slot === slot && !other.contingency));
  });
}

function alone(step: ResolvedStep): StepEvent[] {
  return [
    { step, moment: 'begun' },
    { step, moment: 'done' },
  ];
}

/** What ends makes room for what begins at the same minute; a step of no minutes is begun and done in one. */
function atOnce(steps: readonly ResolvedStep[]): StepEvent[] {
  const spans = new Map(scheduleOf(steps).spans.map((span) => [span.step, span]));
  const timed = steps.flatMap((step, index) => {
    const { startMin = 0, endMin = 0 } = spans.get(step.id) ?? {};
    const momentary = endMin === startMin;
    return alone(step).map((event) => ({
      event,
      key: [
        event.moment === 'begun' ? startMin : endMin,
        momentary ? 1 : event.moment === 'done' ? 0 : 2,
        index,
        event.moment === 'begun' ? 0 : 1,
      ] as const,
    }));
  });
  return timed
    .toSorted((a, b) => a.key.map((part, at) => part - (b.key[at] ?? 0)).find((difference) => difference !== 0) ?? 0)
    .map(({ event }) => event);
}
