import type { CourseProblem, Mend } from '../../../../shared-types/outing.ts';
import type { ResolvedBag, ResolvedPlan } from '../../plan/resolved.ts';
import { otherWaysOf } from '../../stack/otherWay.ts';
import { atMost } from '../../tolerance.ts';
import { showNumber } from '../../units/index.ts';
import { bagCalled, capital, stepCalled, thingCalled } from './called.ts';
import { stepsInOrder } from './stepsInOrder.ts';
import type { OutingRun } from './run.ts';

interface Packed {
  id: string;
  massKg: number;
}

/** Roles whose own bags, with what is in them, are heavier than they carry. */
export function overCarry(run: OutingRun): CourseProblem[] {
  return [...run.outing.carryMaxKg].flatMap(([role, maxKg]): CourseProblem[] => {
    const own = run.bags.filter((bag) => bag.role === role);
    const inside = own.flatMap((bag) => contents(run, bag));
    const massKg = [...own, ...inside].reduce((sum, one) => sum + one.massKg, 0);
    if (atMost(massKg, maxKg)) return [];
    const mends = lightenMends(run, role, inside, massKg - maxKg);
    const of = { outing: run.outing.id, step: null, id: role, role };
    return [{ rule: 'over-carry', ...of, kind: 'role', quantity: massKg - maxKg, mends }];
  });
}

function contents(run: OutingRun, bag: ResolvedBag): Packed[] {
  return (run.answer?.items ?? []).flatMap((line) => {
    const item = line.bag === bag.id ? run.plan.carried.get(line.id) : undefined;
    return item === undefined ? [] : [{ id: item.id, massKg: item.massKg * line.quantity }];
  });
}

/** The lightest one thing which is enough, else the heaviest; and whose bag could take it. */
function lightenMends(run: OutingRun, role: string, inside: readonly Packed[], overKg: number): Mend[] {
  const byMass = inside.toSorted((a, b) => a.massKg - b.massKg);
  const one = byMass.find(({ massKg }) => atMost(overKg, massKg)) ?? byMass.at(-1);
  const shared = run.outing.bags.find((id) => run.plan.bags.get(id)?.role === null);
  if (one === undefined) return [];
  const where = shared === undefined ? 'in another bag' : `in ${bagCalled(run.plan, shared)}`;
  return [
    {
      how: 'lighten',
      outing: run.outing.id,
      says: `${role} is ${showNumber(overKg)} kg over: carry ${thingCalled(run.plan, one.id)}, ${showNumber(one.massKg)} kg, ${where}.`,
    },
  ];
}

/** Steps that stand before one they must come after. */
export function ordersBroken(plan: ResolvedPlan): CourseProblem[] {
  const steps = stepsInOrder(plan);
  const position = new Map(steps.map(({ id }, index) => [id, index]));
  return steps.flatMap((step, index) =>
    (step.after ?? [])
      .filter((id) => (position.get(id) ?? -1) > index)
      .map((id): CourseProblem => {
        const first = steps.find((one) => one.id === id);
        const named = first === undefined ? `step ${id}` : stepCalled(first);
        const says = `${capital(stepCalled(step))} needs ${named} done: list it after that.`;
        const of = { outing: step.outing, step: step.id, id, role: step.role };
        return {
          rule: 'out-of-order',
          ...of,
          kind: 'step',
          quantity: 1,
          mends: [{ how: 'reorder', outing: step.outing, step: id, says }],
        };
      }),
  );
}

/**
 * Planned torque tools that measure the other way than their step's thread tightens. The rules of a stack do not ask for the way, so that a
 * bag may hold one; one of which nothing is said is assumed to measure it.
 */
export function otherWayProblems(run: OutingRun): CourseProblem[] {
  if (run.answer === null) return [];
  return otherWaysOf(run.plan, run.answer).flatMap(({ step, way }): CourseProblem[] => {
    const { tool, tightens, measures } = way;
    if (measures === null) {
      run.assumptions.add(
        `${capital(stepCalled(step))}: ${tool} measures to the ${tightens}; its direction is not given.`,
      );
      return [];
    }
    const says = `Plan again with ${thingCalled(run.plan, tool)} forbidden, or give ${stepCalled(step)} a torque tool that measures to the ${tightens}.`;
    const of = { outing: run.outing.id, step: step.id, id: tool, role: step.role };
    const mends: Mend[] = [{ how: 'tool', outing: run.outing.id, step: step.id, says }];
    return [{ rule: 'other-way', ...of, kind: 'tool', quantity: 1, mends }];
  });
}
