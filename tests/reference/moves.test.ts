import { describe, expect, it } from 'vitest';
import type { Plan, PlanStep } from '../../shared-types/plan.ts';
import { handPlan, loosen } from './handPlan.ts';
import { problemsOf } from './moves.ts';

type Move = [quantity: number, from: string, to: string];

const places = [{ id: 'foot' }, { id: 'top', final: true }];

function moving(...steps: Move[][]): Plan {
  const made = steps.map((moves, index): PlanStep => {
    const list = moves.map(([quantity, from, to]) => ({ id: 'cap', quantity, from, to }));
    return loosen({ id: `s${index + 1}`, moves: list });
  });
  return handPlan(made, {}, { places });
}

describe('moved gear', () => {
  it('that lies at a final place, or came home, is no problem', () => {
    expect(problemsOf(moving([[2, 'bag', 'top']], [[1, 'bag', 'foot']], [[1, 'foot', 'bag']]))).toEqual([]);
  });

  it('left at another place is left behind, by the last move that laid it there', () => {
    const plan = moving([[1, 'bag', 'foot']], [[2, 'bag', 'foot']], [[1, 'foot', 'top']]);
    expect(problemsOf(plan)).toEqual([
      { rule: 'left-behind', outing: 'out', step: 's2', id: 'cap', quantity: 2, place: 'foot' },
    ]);
  });

  it('that is not there is missed, and what is there moves', () => {
    const plan = moving([[1, 'bag', 'foot']], [[3, 'foot', 'top']]);
    expect(problemsOf(plan)).toEqual([
      { rule: 'not-there', outing: 'out', step: 's2', id: 'cap', quantity: 2, place: 'foot' },
    ]);
  });

  it('follows the outings as listed, then the steps as listed', () => {
    const lay = loosen({ id: 'lay', outing: 'one', moves: [{ id: 'cap', quantity: 1, from: 'bag', to: 'foot' }] });
    const take = loosen({ id: 'take', outing: 'two', moves: [{ id: 'cap', quantity: 1, from: 'foot', to: 'bag' }] });
    const outing = (id: string): Plan['outings'][number] => ({ id, roles: ['Lead'], bags: ['sack'] });
    expect(problemsOf(handPlan([take, lay], {}, { places, outings: [outing('one'), outing('two')] }))).toEqual([]);
    const other = problemsOf(handPlan([take, lay], {}, { places, outings: [outing('two'), outing('one')] }));
    expect(other.map(({ rule, step }) => `${rule} ${step}`)).toEqual(['not-there take', 'left-behind lay']);
  });
});

describe('minutes', () => {
  const timed = (minutesMax: number, steps: PlanStep[]): Plan =>
    handPlan(steps, {}, { outings: [{ id: 'out', roles: ['Lead', 'Second'], bags: ['sack'], minutesMax }] });
  const steps = [
    loosen({ id: 'a', minutes: 10, slot: 's' }),
    loosen({ id: 'b', minutes: 4, slot: 's' }),
    loosen({ id: 'c', minutes: 12, slot: 's', role: 'Second' }),
    loosen({ id: 'd', minutes: 6 }),
    loosen({ id: 'e', minutes: 99, contingency: true }),
  ];

  it('are the longest role of a slot and the steps outside: 14 + 6', () => {
    expect(problemsOf(timed(20, steps))).toEqual([]);
  });

  it('over the limit are said', () => {
    expect(problemsOf(timed(18, steps))).toEqual([{ rule: 'over-time', outing: 'out', id: 'out', quantity: 2 }]);
  });
});
