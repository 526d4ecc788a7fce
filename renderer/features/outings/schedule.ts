import type { TaskStep } from '../../../shared-types/records/task.ts';

/** When a step is done, in minutes from the start of its outing. */
export interface Span {
  step: TaskStep;
  startMin: number;
  endMin: number;
}

export interface Schedule {
  /** Steps of the outing's own course, in order. */
  spans: Span[];
  /** Done only if another one fails: they have no place on the clock. */
  aside: TaskStep[];
  /** Minutes out: where the last step ends. */
  endMin: number;
  /** Minutes of work, each step by itself. */
  workMin: number;
}

/**
 * The course of one outing: steps one after another; those of one slot at once, each role doing its own one after another.
 * A slot begins where its first step stands in the order, and ends with its longest role.
 */
export function scheduleOf(steps: readonly TaskStep[]): Schedule {
  const counted = steps.filter(({ contingency }) => contingency !== true);
  const spans: Span[] = [];
  const begun = new Set<string>();
  let clockMin = 0;
  for (const step of counted) {
    const { slot } = step;
    if (slot === undefined) {
      spans.push(spanAt(step, clockMin));
      clockMin += step.minutes ?? 0;
      continue;
    }
    if (begun.has(slot)) continue;
    begun.add(slot);
    const ends = new Map<string, number>();
    for (const beside of counted.filter((other) => other.slot === slot)) {
      const span = spanAt(beside, ends.get(beside.role) ?? clockMin);
      spans.push(span);
      ends.set(beside.role, span.endMin);
    }
    clockMin = Math.max(...ends.values());
  }
  return {
    spans,
    aside: steps.filter(({ contingency }) => contingency === true),
    endMin: clockMin,
    workMin: counted.reduce((sum, { minutes = 0 }) => sum + minutes, 0),
  };
}

function spanAt(step: TaskStep, startMin: number): Span {
  return { step, startMin, endMin: startMin + (step.minutes ?? 0) };
}
