/**
 * Where carried gear lies after every step, and what is wrong with it; and the outing's minutes (rule 15).
 *
 * Readings where the rule leaves room:
 * - `not-there` gives the quantity that is missing, and the place the move starts from;
 * - `left-behind` names the last move that laid some of the item at that place;
 * - a slot's minutes are the largest sum of one role's steps in it; `count` does not multiply them;
 * - `over-time` has no step and no place.
 */
import type { PlanProblem } from '../../shared-types/bag.ts';
import type { Plan } from '../../shared-types/plan.ts';
import type { BreakName } from './breaks.ts';
import { atMost } from './quantity.ts';

interface Lying {
  id: string;
  place: string;
  quantity: number;
  outing: string;
  step: string;
}

const inBag = 'bag';

function movedGear(plan: Plan, broken?: BreakName): PlanProblem[] {
  const lying: Lying[] = [];
  const problems: PlanProblem[] = [];
  const at = (id: string, place: string): Lying | undefined =>
    lying.find((one) => one.id === id && one.place === place);
  for (const outing of plan.outings) {
    for (const step of plan.steps.filter((one) => one.outing === outing.id)) {
      for (const { id, quantity, from, to } of step.moves ?? []) {
        const source = from === inBag ? undefined : at(id, from);
        const there = from === inBag ? quantity : (source?.quantity ?? 0);
        if (there < quantity) {
          const missing = quantity - there;
          problems.push({ rule: 'not-there', outing: outing.id, step: step.id, id, quantity: missing, place: from });
        }
        const moved = broken === 'moveThere' ? quantity : Math.min(quantity, there);
        if (source !== undefined) {
          source.quantity = Math.max(0, source.quantity - moved);
          if (broken === 'lastMove') Object.assign(source, { outing: outing.id, step: step.id });
        }
        if (moved === 0 || to === inBag) continue;
        const target = at(id, to);
        if (target === undefined) lying.push({ id, place: to, quantity: moved, outing: outing.id, step: step.id });
        else Object.assign(target, { quantity: target.quantity + moved, outing: outing.id, step: step.id });
      }
    }
  }
  const final = (place: string): boolean =>
    broken !== 'finalPlace' && plan.places?.find((one) => one.id === place)?.final === true;
  for (const { id, place, quantity, outing, step } of lying) {
    if (quantity > 0 && !final(place)) problems.push({ rule: 'left-behind', outing, step, id, quantity, place });
  }
  return problems;
}

/** Minutes of an outing: steps outside slots add up, of a slot the longest role counts, contingency steps do not. */
function minutesOf(plan: Plan, outingId: string, broken?: BreakName): number {
  const bySlot = new Map<string, Map<string, number>>();
  let total = 0;
  for (const step of plan.steps) {
    if (step.outing !== outingId || (step.contingency === true && broken !== 'contingencyMinutes')) continue;
    const minutes = step.minutes ?? 0;
    if (step.slot === undefined) total += minutes;
    else {
      const roles = bySlot.get(step.slot) ?? new Map<string, number>();
      roles.set(step.role, (roles.get(step.role) ?? 0) + minutes);
      bySlot.set(step.slot, roles);
    }
  }
  for (const roles of bySlot.values()) {
    const each = [...roles.values()];
    total += broken === 'slotMinutes' ? each.reduce((sum, one) => sum + one, 0) : Math.max(...each);
  }
  return total;
}

export function problemsOf(plan: Plan, broken?: BreakName): PlanProblem[] {
  const late = plan.outings.flatMap(({ id, minutesMax }): PlanProblem[] => {
    const minutes = minutesOf(plan, id, broken);
    if (minutesMax === undefined || atMost(minutes, minutesMax)) return [];
    return [{ rule: 'over-time', outing: id, id, quantity: minutes - minutesMax }];
  });
  return [...movedGear(plan, broken), ...late];
}
