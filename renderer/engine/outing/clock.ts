import type { ClockSpan, OutingClock, SafeStep, TurnBack } from '../../../shared-types/outing.ts';
import type { ResolvedOuting, ResolvedPlan, ResolvedStep } from '../plan/resolved.ts';
import { atMost } from '../tolerance.ts';

/** What the clock needs of a step. */
export type TimedStep = Pick<ResolvedStep, 'id' | 'role' | 'slot' | 'minutes' | 'contingency'>;

/**
 * When each step of an outing's own course is done.
 *
 *   steps one after another; those of one slot at once, each role's one after another; a slot begins where its first
 *   step is listed and ends with its longest role
 *
 * @param steps - steps of one outing as listed, minutes [min] ≥ 0
 * @returns spans [min] from the beginning of the outing; contingency steps have none
 * @throws nothing
 * @source rule 8 and rule 15 of command `bag`
 * @validity steps of one outing
 * @example scheduleOf of steps of 5 and 7 min in no slot: 0 to 5, 5 to 12
 */
export function scheduleOf(steps: readonly TimedStep[]): { spans: ClockSpan[]; endMin: number } {
  const counted = steps.filter(({ contingency }) => !contingency);
  const bySlot = new Map<string, TimedStep[]>();
  for (const step of counted) {
    if (step.slot !== null) bySlot.set(step.slot, [...(bySlot.get(step.slot) ?? []), step]);
  }
  const spans: ClockSpan[] = [];
  const begun = new Set<string>();
  let clockMin = 0;
  for (const step of counted) {
    const { slot } = step;
    if (slot === null) {
      spans.push(spanAt(step, clockMin));
      clockMin += step.minutes;
      continue;
    }
    if (begun.has(slot)) continue;
    begun.add(slot);
    const ends = new Map<string, number>();
    for (const beside of bySlot.get(slot) ?? []) {
      const span = spanAt(beside, ends.get(beside.role) ?? clockMin);
      spans.push(span);
      ends.set(beside.role, span.endMin);
    }
    clockMin = Math.max(...ends.values());
  }
  return { spans, endMin: clockMin };
}

function spanAt({ id, role, minutes }: TimedStep, startMin: number): ClockSpan {
  return { step: id, role, startMin, endMin: startMin + minutes };
}

/**
 * The clock of an outing: its course, its end against its limit, where it must turn back, where it may be left.
 *
 *   over = max(0, end − limit);  latest turn = limit − way home;
 *   turn-back step = the last with end ≤ latest turn, at which no other role is in the middle of one
 *
 * @returns minutes [min] from the beginning of the outing
 * @throws nothing
 * @source common practice, no source: the way home is kept free until it is begun
 * @validity minutes as the plan gives them; `engine/outing/finishing` has their spread
 * @example limit 60, way home 10, steps ending at 20, 45 and 58: latest turn 50, turn-back step the second
 */
export function outingClock(plan: ResolvedPlan, outing: ResolvedOuting): OutingClock {
  const steps = plan.steps.filter((step) => step.outing === outing.id);
  const { spans, endMin } = scheduleOf(steps);
  const { minutesMax } = outing;
  const turn = turnBack(outing, steps, spans, endMin);
  return {
    spans: spans.toSorted((a, b) => a.startMin - b.startMin),
    aside: steps.filter(({ contingency }) => contingency).map(({ id }) => id),
    endMin,
    minutesMax,
    overMin: minutesMax === null || atMost(endMin, minutesMax) ? 0 : endMin - minutesMax,
    turnBack: turn,
    safe: safeSteps(steps, spans, turn?.latestMin ?? null),
  };
}

function turnBack(
  { minutesMax, turnBackMin }: ResolvedOuting,
  steps: readonly ResolvedStep[],
  spans: readonly ClockSpan[],
  endMin: number,
): TurnBack | null {
  if (minutesMax === null || turnBackMin === null) return null;
  const latestMin = minutesMax - turnBackMin;
  const fits = byEnd(spans).filter((span) => standsStill(span, spans) && atMost(span.endMin, latestMin));
  const safe = new Set(steps.filter(({ safeToLeave }) => safeToLeave).map(({ id }) => id));
  return {
    minutes: turnBackMin,
    latestMin,
    step: fits.at(-1)?.step ?? null,
    safeStep: fits.findLast(({ step }) => safe.has(step))?.step ?? null,
    allFits: atMost(endMin, latestMin),
  };
}

/** Nobody turns back while another role is in the middle of a step. */
function standsStill({ endMin }: ClockSpan, spans: readonly ClockSpan[]): boolean {
  return spans.every((other) => other.endMin <= endMin || other.startMin >= endMin);
}

/** By end; where several end at once, the one listed last comes last. */
function byEnd(spans: readonly ClockSpan[]): ClockSpan[] {
  return spans.toSorted((a, b) => a.endMin - b.endMin);
}

/** Safe steps in the order in which they end, with the stretch before each in which the work cannot be left. */
function safeSteps(steps: readonly ResolvedStep[], spans: readonly ClockSpan[], latestMin: number | null): SafeStep[] {
  const safe = new Set(steps.filter(({ safeToLeave }) => safeToLeave).map(({ id }) => id));
  let lastMin = 0;
  return byEnd(spans)
    .filter(({ step }) => safe.has(step))
    .map(({ step, endMin }) => {
      const stretchMin = endMin - lastMin;
      lastMin = endMin;
      return { step, endMin, slackMin: latestMin === null ? null : latestMin - endMin, stretchMin };
    });
}
