import type { BagStep, Tolerance } from '../../../../shared-types/bag.ts';
import type { ResolvedPlan, ResolvedStep } from '../../plan/resolved.ts';
import type { StackTask } from '../../stack/stackTask.ts';
import { holdTask, stackTask } from '../../stack/stackTask.ts';
import type { StackStock } from '../../stack/ways.ts';
import type { Line } from './line.ts';
import { piecesOf, quantityOf } from './line.ts';
import { someStack } from './someStack.ts';

/** Rule 10, and the same for a bag: each loss in turn, and for every step a stack and hold among what is left. */
export function recheckLosses(
  plan: ResolvedPlan,
  steps: readonly ResolvedStep[],
  answers: ReadonlyMap<string, BagStep>,
  lines: readonly Line[],
  tolerance: Tolerance,
): string[] {
  const known = new Map<string, boolean>();
  return lossesOf(lines, tolerance).flatMap(({ said, left }) =>
    steps.flatMap((step) => {
      const own = piecesOf(answers.get(step.id));
      const untouched = own.every((id) => own.filter((other) => other === id).length <= quantityOf(left, id));
      if (untouched) return [];
      const key = JSON.stringify([said, askedOf(stackTask(plan, step)), askedOf(holdTask(plan, step))]);
      const survives = known.get(key) ?? servedFrom(plan, step, left);
      known.set(key, survives);
      return survives ? [] : [`step ${step.id} has no stack once ${said} is lost`];
    }),
  );
}

function lossesOf(lines: readonly Line[], tolerance: Tolerance): { said: string; left: Line[] }[] {
  if (tolerance === 'bag') {
    return [...new Set(lines.map(({ bag }) => bag))].map((lost) => ({
      said: `bag ${lost.id}`,
      left: lines.filter(({ bag }) => bag !== lost),
    }));
  }
  if (tolerance !== 'piece') return [];
  return lines
    .filter(({ item }) => item.kind !== 'gear')
    .map((lost) => ({
      said: lost.item.id,
      left: lines.map((line) => (line === lost ? { ...line, quantity: line.quantity - 1 } : line)),
    }));
}

function askedOf(task: StackTask | null): unknown {
  if (!task) return null;
  const { fastener, shown: _shown, ...asked } = task;
  return [asked, fastener.headForm, fastener.acrossFlats];
}

function servedFrom(plan: ResolvedPlan, step: ResolvedStep, left: readonly Line[]): boolean {
  const task = stackTask(plan, step);
  if (!task) return true;
  const holding = holdTask(plan, step);
  const enough = (ids: readonly string[]): boolean =>
    ids.every((id) => ids.filter((other) => other === id).length <= quantityOf(left, id));
  const stock = stockLeft(plan, left);
  return someStack(stock, task, (ids) => {
    if (!enough(ids)) return false;
    return holding === null || someStack(stock, holding, (held) => enough([...ids, ...held]));
  });
}

function stockLeft(plan: ResolvedPlan, left: readonly Line[]): StackStock {
  const there = <T>(items: ReadonlyMap<string, T>): Map<string, T> =>
    new Map([...items].filter(([id]) => quantityOf(left, id) > 0));
  return { tools: there(plan.tools), extensions: there(plan.extensions), sockets: there(plan.sockets) };
}
