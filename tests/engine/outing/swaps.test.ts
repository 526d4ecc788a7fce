import { describe, expect, it } from 'vitest';
import { swapProposals } from '../../../renderer/engine/outing/proposals/swaps.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import type { BagOuting } from '../../../shared-types/bag.ts';
import type { PlanStep } from '../../../shared-types/plan.ts';
import { coursePlan, step } from './coursePlan.ts';

const gear = (id: string) => ({ id, mass: '100 g', onHand: 1 });
const catalog = {
  carryGear: [gear('line'), gear('cap')],
  bags: [{ id: 'own', role: 'Lead' }, { id: 'other', role: 'Second' }, { id: 'shared' }],
};
const packed = (bag: string): BagOuting => ({
  id: 'O1',
  massKg: 1,
  items: [{ id: 'line', quantity: 1, bag, because: ['long'] }],
  steps: ['long', 'short', 'after'].map((id) => ({ id, stack: [], hold: null, setting: null })),
});
const steps: PlanStep[] = [
  step('long', 'Lead', { slot: 'x', minutes: 10, gear: [{ id: 'line', quantity: 1 }] }),
  step('more', 'Lead', { slot: 'x', minutes: 8 }),
  step('short', 'Second', { slot: 'x', minutes: 4 }),
  step('after', 'Lead', { minutes: 5 }),
];

function swapsOf(of: PlanStep[], outing: Record<string, unknown>, bag: string | null) {
  const plan = planFrom(coursePlan({ steps: of, catalog, outing: { bags: ['own', 'other', 'shared'], ...outing } }));
  const [first] = plan.outings;
  return first === undefined ? [] : swapProposals(plan, bag === null ? [] : [packed(bag)], first);
}

describe('a proposed swap of roles', () => {
  it('makes a slot as short as giving one step can, and says the loads', () => {
    const [best] = swapsOf(steps, {}, 'shared');
    // Lead 18 and Second 4 min at once: with "more" given away 10 and 12.
    expect(best).toEqual({
      changes: [{ step: 'more', from: 'Lead', to: 'Second' }],
      minutes: { before: 23, after: 17 },
      loads: [
        { role: 'Lead', before: 23, after: 15 },
        { role: 'Second', before: 4, after: 12 },
      ],
      clashes: [],
      bag: { serves: true, reasons: [] },
    });
  });

  it('says where the bag as planned does not serve it, and shows what it serves first', () => {
    const light = steps.map((one) => (one.id === 'more' ? { ...one, minutes: 2 } : one));
    const proposals = swapsOf(light, {}, 'own');
    expect(proposals.map(({ bag }) => bag?.serves)).toEqual(
      proposals
        .map(({ bag }) => bag?.serves)
        .toSorted()
        .toReversed(),
    );
    const long = proposals.find(({ changes }) => changes.some(({ step: id }) => id === 'long'));
    expect(long?.bag).toEqual({ serves: false, reasons: ['own of Lead would hold line, which no step of Lead uses'] });
  });

  it('is none between roles that the plan does not let swap', () => {
    const three = { roles: ['Lead', 'Second', 'Base'], swaps: [['Second', 'Base']] };
    expect(swapsOf(steps, three, 'shared')).toEqual([]);
    expect(swapsOf(steps, { ...three, swaps: [['Lead', 'Second']] }, 'shared').length).toBeGreaterThan(0);
  });

  it('is none where the roles share the work well', () => {
    const even = [step('a', 'Lead', { slot: 'x', minutes: 10 }), step('b', 'Second', { slot: 'x', minutes: 9 })];
    expect(swapsOf(even, {}, null)).toEqual([]);
  });

  it('judges no bag where none was planned, and says what would be used twice', () => {
    expect(swapsOf(steps, {}, null)[0]).toMatchObject({ bag: null });
    const line = [{ id: 'line', quantity: 1 }];
    const both: PlanStep[] = [
      step('long', 'Lead', { slot: 'x', minutes: 10, gear: line }),
      step('more', 'Lead', { slot: 'x', minutes: 9, gear: line }),
      step('short', 'Second', { slot: 'x', minutes: 2 }),
    ];
    const given = swapsOf(both, {}, 'shared').find(
      ({ changes }) => changes[0]?.step === 'more' && changes.length === 1,
    );
    expect(given?.clashes).toMatchObject([{ rule: 'used-twice', id: 'line', quantity: 1 }]);
  });
});
