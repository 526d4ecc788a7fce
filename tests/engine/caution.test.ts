import { expect, it } from 'vitest';
import { bagText } from '../../renderer/engine/bag/bagText.ts';
import { cautionLead, cautionShort } from '../../renderer/engine/caution.ts';
import { planFrom } from '../../renderer/engine/plan/readPlan.ts';
import { smallPlan } from '../support/smallPlan.ts';

it('ends the answer for reading with the whole short caution, in lines that fit a terminal of 112 columns', () => {
  const text = bagText(planFrom(smallPlan()), {
    status: 'infeasible',
    objective: null,
    outings: [],
    singleLoss: false,
    tolerance: 'nothing',
    wishes: { keep: [], forbid: [], spares: [] },
    unchecked: [],
    problems: [],
    infeasible: [],
    ignoredFields: [],
  });
  const lines = text.trimEnd().split('\n').slice(-2);
  expect(lines.join(' ')).toBe(`${cautionLead} ${cautionShort}`);
  expect(lines.filter((line) => line.length > 112)).toEqual([]);
});
