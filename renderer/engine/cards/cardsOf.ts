import type { ResolvedStep } from '../plan/resolved.ts';
import { otherWaysOf } from '../stack/otherWay.ts';
import type { Card, CardStep } from './card.ts';
import { chunksOf } from './chunks.ts';
import type { Room } from './chunks.ts';
import { stepCard } from './stepCard.ts';
import type { CardSource } from './stepCard.ts';

export interface CardsAsked extends CardSource {
  /** Id of the outing. */
  outing: string;
  /** One role's cards; null for those of every role, one after another. */
  role: string | null;
  room: Room;
}

/** The cards of an outing, role by role, in the order of the task. */
export function cardsOf(asked: CardsAsked): Card[] {
  const { plan, outing, role } = asked;
  const roles = plan.outings.find(({ id }) => id === outing)?.roles ?? [];
  return roles
    .filter((one) => role === null || one === role)
    .flatMap((one) => chunksOf(one, stepsOf(asked, one), asked.room));
}

/** A role's steps. What it has in its hands already is not taken up again, and goes back when the next step needs another stack. */
function stepsOf(asked: CardsAsked, role: string): CardStep[] {
  const steps = asked.plan.steps.filter((step) => step.outing === asked.outing && step.role === role);
  const outing = asked.result.outings.find(({ id }) => id === asked.outing);
  const others = outing === undefined ? [] : otherWaysOf(asked.plan, outing);
  // With a tool that measures the other way nothing is turned, and so nothing is taken up.
  const idle = new Set(others.flatMap(({ step, way }) => (way.measures === null ? [] : [step.id])));
  const answers = new Map(outing?.steps.flatMap((step) => (idle.has(step.id) ? [] : [[step.id, step] as const])));
  const handsAt = (step: ResolvedStep | undefined): string => {
    const answer = answers.get(step?.id ?? '');
    return answer === undefined ? '' : [...answer.stack, '', ...(answer.hold ?? [])].join('\n');
  };
  const inCourse = steps.filter(({ contingency }) => !contingency);
  const turning = inCourse.filter((step) => (answers.get(step.id)?.stack.length ?? 0) > 0);
  return steps.map((step) => {
    // Whether a step that is done only if another fails comes at all is not known: it takes and gives back for itself.
    const at = turning.indexOf(step);
    const alone = step.contingency || at < 0;
    return stepCard(asked, step, {
      taken: !alone && handsAt(turning[at - 1]) === handsAt(step),
      back: alone || handsAt(turning[at + 1]) !== handsAt(step),
    });
  });
}
