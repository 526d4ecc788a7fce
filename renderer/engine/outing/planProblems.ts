import type { PlanProblem } from '../../../shared-types/bag.ts';
import type { ResolvedOuting, ResolvedPlan, ResolvedStep } from '../plan/resolved.ts';
import { atMost } from '../tolerance.ts';

/** What is wrong with a plan apart from its bags: things not where a move looks for them, things left, time over. */
export function planProblems(plan: ResolvedPlan): PlanProblem[] {
  return [...followMoves(plan), ...plan.outings.flatMap((outing) => overTime(plan, outing))];
}

interface AtPlace {
  id: string;
  place: string;
  quantity: number;
  /** The step that last brought some of it: what stays was moved by no later one. */
  lastMove: ResolvedStep;
}

/** Rule 15: moves in the order of the outings, then of the steps; one of more than is there moves what is there. */
function followMoves(plan: ResolvedPlan): PlanProblem[] {
  const there = new Map<string, AtPlace>();
  const problems: PlanProblem[] = [];
  const at = (id: string, place: string, step: ResolvedStep): AtPlace => {
    const key = JSON.stringify([id, place]);
    const known = there.get(key) ?? { id, place, quantity: 0, lastMove: step };
    there.set(key, known);
    return known;
  };
  for (const step of stepsInOrder(plan)) {
    for (const { id, quantity, from, to } of step.moves) {
      let moved = quantity;
      if (from !== 'bag') {
        const source = at(id, from, step);
        moved = Math.min(quantity, source.quantity);
        if (moved < quantity) {
          problems.push({
            rule: 'not-there',
            outing: step.outing,
            step: step.id,
            id,
            quantity: quantity - moved,
            place: from,
          });
        }
        source.quantity -= moved;
      }
      if (to === 'bag' || moved === 0) continue;
      const target = at(id, to, step);
      target.quantity += moved;
      target.lastMove = step;
    }
  }
  const final = new Set(plan.source.places?.filter((place) => place.final).map((place) => place.id));
  const left = [...there.values()].filter(({ place, quantity }) => quantity > 0 && !final.has(place));
  return [
    ...problems,
    ...left.map(({ id, place, quantity, lastMove }): PlanProblem => {
      return { rule: 'left-behind', outing: lastMove.outing, step: lastMove.id, id, quantity, place };
    }),
  ];
}

function stepsInOrder(plan: ResolvedPlan): ResolvedStep[] {
  return plan.outings.flatMap((outing) => plan.steps.filter((step) => step.outing === outing.id));
}

function overTime(plan: ResolvedPlan, outing: ResolvedOuting): PlanProblem[] {
  const minutes = outingMinutes(plan, outing);
  if (outing.minutesMax === null || atMost(minutes, outing.minutesMax)) return [];
  return [{ rule: 'over-time', outing: outing.id, id: outing.id, quantity: minutes - outing.minutesMax }];
}

/**
 * Minutes an outing's steps take: one after another, in a slot as long as its longest role. Contingency steps are not
 * counted.
 */
export function outingMinutes(plan: ResolvedPlan, outing: ResolvedOuting): number {
  const counted = plan.steps.filter((step) => step.outing === outing.id && !step.contingency);
  const sum = (steps: readonly ResolvedStep[]): number => steps.reduce((total, step) => total + step.minutes, 0);
  const slots = [...new Set(counted.flatMap((step) => step.slot ?? []))].map((slot) => {
    const inSlot = counted.filter((step) => step.slot === slot);
    const roles = [...new Set(inSlot.map((step) => step.role))];
    return Math.max(...roles.map((role) => sum(inSlot.filter((step) => step.role === role))));
  });
  return slots.reduce((total, minutes) => total + minutes, sum(counted.filter((step) => step.slot === null)));
}
