import { describe, expect, it } from 'vitest';
import { outingMinutes, planProblems } from '../../../renderer/engine/outing/planProblems.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import { append, put } from '../../support/editJson.ts';
import { smallPlan } from '../../support/smallPlan.ts';

type Move = [step: string, outing: string, quantity: number, from: string, to: string];

function withMoves(...moves: Move[]) {
  const source: Record<string, unknown> = smallPlan();
  source['places'] = [{ id: 'foot' }, { id: 'store', final: true }];
  append('outings', { id: 'O2', roles: ['Lead'], bags: ['B-1'] })(source);
  source['steps'] = moves.map(([id, outing, quantity, from, to]) => {
    return { id, outing, role: 'Lead', action: 'use', moves: [{ id: 'C-1', quantity, from, to }] };
  });
  return planProblems(planFrom(source));
}

describe('what is left where', () => {
  it('is nothing where everything comes home or to rest', () => {
    expect(
      withMoves(['a', 'O1', 2, 'bag', 'foot'], ['b', 'O2', 1, 'foot', 'bag'], ['c', 'O2', 1, 'foot', 'store']),
    ).toEqual([]);
  });

  it('is left behind by the step that last brought some of it', () => {
    expect(withMoves(['a', 'O1', 3, 'bag', 'foot'], ['b', 'O2', 1, 'foot', 'bag'])).toEqual([
      { rule: 'left-behind', outing: 'O1', step: 'a', id: 'C-1', quantity: 2, place: 'foot' },
    ]);
  });

  it('is left behind down to one piece', () => {
    expect(withMoves(['a', 'O1', 1, 'bag', 'foot'])).toMatchObject([{ rule: 'left-behind', quantity: 1 }]);
  });

  it('is not there to be fetched before it is left, and only what is there moves', () => {
    expect(withMoves(['a', 'O1', 1, 'bag', 'foot'], ['b', 'O2', 3, 'foot', 'store'])).toEqual([
      { rule: 'not-there', outing: 'O2', step: 'b', id: 'C-1', quantity: 2, place: 'foot' },
    ]);
  });

  it('goes by the order of the outings, whatever the order of the steps', () => {
    expect(withMoves(['b', 'O2', 1, 'foot', 'bag'], ['a', 'O1', 1, 'bag', 'foot'])).toEqual([]);
  });
});

describe('the time of an outing', () => {
  const timed = (minutesMax: number) => {
    const small = smallPlan();
    const [loosen] = small.steps;
    const steps = [
      { ...loosen, id: 'a', minutes: 10 },
      { ...loosen, id: 'b', minutes: 7, slot: 's' },
      { ...loosen, id: 'c', minutes: 6, slot: 's' },
      { ...loosen, id: 'd', minutes: 12, slot: 's', role: 'Second' },
      { ...loosen, id: 'e', minutes: 99, contingency: true },
    ];
    const source = { ...small, steps };
    put('outings[0].minutesMax', minutesMax)(source);
    const plan = planFrom(source);
    const [outing] = plan.outings;
    if (!outing) throw new Error('no outing');
    return { minutes: outingMinutes(plan, outing), problems: planProblems(plan) };
  };

  it('counts a slot as its longest role and leaves contingencies out', () => {
    expect(timed(23)).toEqual({ minutes: 23, problems: [] });
  });

  it('takes in a slot what one role’s steps there take together', () => {
    const small = smallPlan();
    const [loosen] = small.steps;
    // Of three roles 13, 6 and 8 minutes; two of them together would be 14 or more.
    const minutes = { Lead: [7, 6], Second: [6], Third: [8] };
    const steps = Object.entries(minutes).flatMap(([role, each]) =>
      each.map((minute, n) => ({ ...loosen, id: `${role}-${n}`, role, slot: 's', minutes: minute })),
    );
    put('outings[0].roles', Object.keys(minutes))(small);
    const plan = planFrom({ ...small, steps });
    expect(plan.outings.map((outing) => outingMinutes(plan, outing))).toEqual([13]);
  });

  it('is over by what passes the limit', () => {
    expect(timed(20).problems).toEqual([{ rule: 'over-time', outing: 'O1', id: 'O1', quantity: 3 }]);
  });
});
