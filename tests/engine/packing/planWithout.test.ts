import { beforeAll, describe, expect, it } from 'vitest';
import type { BagOuting, BagResult } from '../../../shared-types/bag.ts';
import type { Deed, RevisionContent } from '../../../shared-types/records/revision.ts';
import { withBag } from '../../../renderer/engine/bagMap/withBag.ts';
import { planBag } from '../../../renderer/engine/bag/planBag.ts';
import { readFrozen } from '../../../renderer/engine/frozen/index.ts';
import { packState, withoutIt, withoutTask } from '../../../renderer/engine/packing/index.ts';
import { asPacked } from '../../../renderer/engine/packing/asPacked.ts';
import { planFrom, readPlan } from '../../../renderer/engine/plan/readPlan.ts';
import { mapOuting, mapPlan, mapResult, mapSource } from '../../support/bagMapPlan.ts';
import { smallPlan } from '../../support/smallPlan.ts';
import { counted, eventsOf, missing } from './packingEvents.ts';

/** The small plan on two outings alike; the second has a socket of its own kind. */
function twoOutings() {
  const plan = smallPlan();
  const again = plan.steps.map((step) => ({ ...step, id: `${step.id}-2`, outing: 'O2' }));
  return {
    ...plan,
    outings: [...plan.outings, { id: 'O2', roles: ['Lead', 'Second'], bags: ['B-1'] }],
    steps: [...plan.steps, ...again],
  };
}

async function frozenOf(source: object, minimise: 'mass' | 'count' = 'mass'): Promise<RevisionContent> {
  const plan = planFrom(source);
  const result = await planBag(plan, { minimise });
  const lines = result.outings.flatMap(({ id: outing, items }) =>
    items.map(({ id: item, bag, quantity, because }) => ({ outing, bag, item, quantity, because })),
  );
  const codes = [...new Set(lines.flatMap(({ bag, item }) => [bag, item]))];
  const things = codes.map((id) => ({
    id,
    name: id,
    kind: id.startsWith('B') ? ('bag' as const) : ('gear' as const),
    parts: 1,
  }));
  return { planText: JSON.stringify(plan.source), result, things, lines, facts: [] };
}

let one: RevisionContent;
let two: RevisionContent;
beforeAll(async () => {
  one = await frozenOf(smallPlan());
  two = await frozenOf(twoOutings());
});

const at = (content: RevisionContent, deeds: Deed[]) => ({
  frozen: readFrozen({ number: 1, content }),
  state: packState(
    { content },
    eventsOf(deeds).map((event) => ({ ...event, outing: 'O1' })),
    'O1',
  ),
});
async function without(content: RevisionContent, deeds: Deed[], keepPacked = true) {
  const { frozen, state } = at(content, deeds);
  const task = withoutTask(frozen, state, keepPacked);
  const answer = await planBag(readPlan(task.text), { minimise: 'mass', ...task.wishes });
  return { frozen, state, task, answer };
}
const itemsOf = (result: BagResult, outing: string): string[] =>
  (result.outings.find(({ id }) => id === outing)?.items ?? [])
    .map(({ id, quantity }) => `${quantity} ${id}`)
    .toSorted();

describe('an outing planned without what is not there', () => {
  it('takes what else serves, and is as light as the whole plan with that stock', async () => {
    const lost = itemsOf(one.result, 'O1').some((line) => line === '1 S-9/16') ? 'S-9/16' : 'S-9/16-12';
    const other = lost === 'S-9/16' ? 'S-9/16-12' : 'S-9/16';
    const { frozen, state, task, answer } = await without(one, [counted('B-1', 'TT-2', 1), missing('B-1', lost, 1)]);
    expect(task.there.get(lost)).toBe(0);
    const next = withoutIt(frozen, state, { task, answer });
    expect(itemsOf(next.result, 'O1')).toContain(`1 ${other}`);
    expect(itemsOf(next.result, 'O1')).not.toContain(`1 ${lost}`);
    expect(next).toMatchObject({ alsoShort: [], result: { status: 'optimal' } });
    // Asked by itself: the same plan without the lost one.
    const plan = smallPlan();
    const sockets = plan.catalog.sockets.filter(({ id }) => id !== lost);
    const direct = await planBag(planFrom({ ...plan, catalog: { ...plan.catalog, sockets } }), { minimise: 'mass' });
    expect(next.result.objective?.value).toBeCloseTo(direct.objective?.value ?? NaN, 9);
    expect(next.result.wishes.keep).toEqual([{ id: 'TT-2', quantity: 1, outing: 'O1' }]);
  });

  it('says which steps fail where nothing else serves', async () => {
    const { answer, frozen, state, task } = await without(one, [missing('B-1', 'TT-2', 1)]);
    expect(answer.status).toBe('infeasible');
    expect(answer.infeasible.map(({ step }) => step)).toEqual(['tighten']);
    expect(() => withoutIt(frozen, state, { task, answer })).toThrow('there is no bag without it');
  });

  it('leaves the other outings as they were frozen, and says which of them count on it too', async () => {
    const lost = two.result.outings[0]?.items.find(({ id }) => id.startsWith('S-'));
    if (lost === undefined) throw new Error('the plan takes no socket');
    const { frozen, state, task, answer } = await without(two, [missing('B-1', lost.id, 1)]);
    expect(JSON.parse(task.text)).toMatchObject({ outings: [{ id: 'O1' }] });
    const next = withoutIt(frozen, state, { task, answer });
    expect(next.alsoShort).toEqual([{ outing: 'O2', item: lost.id, takes: 1, there: 0 }]);
    expect(next.result.status).toBe('stopped');
    expect(next.result.outings[1]).toEqual(two.result.outings[1]);
    const { value, bound } = next.result.objective ?? { value: 0, bound: 0 };
    expect(bound).toBeLessThanOrEqual(value);
    // Read anew, the next manifest is a plan of its own that its lines answer.
    expect(readPlan(next.text).carried.get(lost.id)?.onHand).toBe(1);
  });

  it('takes off what other outings use up, and lets go of wishes for what is missing', async () => {
    const source = twoOutings();
    const carryGear = [{ id: 'C-1', mass: '20 g', onHand: 5, consumed: true }];
    const plan = planFrom({ ...source, catalog: { ...source.catalog, carryGear } });
    const result = await planBag(plan, { minimise: 'mass', spares: [{ id: 'C-1', quantity: 1, outing: 'O1' }] });
    const lines = result.outings.flatMap(({ id: outing, items }) =>
      items.map(({ id: item, bag, quantity, because }) => ({ outing, bag, item, quantity, because })),
    );
    const things = [...new Set(lines.flatMap(({ bag, item }) => [bag, item]))].map((id) => ({
      id,
      name: id,
      kind: 'gear' as const,
      parts: 1,
    }));
    const content = { planText: JSON.stringify(plan.source), result, things, lines, facts: [] };
    const stockIn = (text: string): number | undefined => readPlan(text).carried.get('C-1')?.onHand;
    const whole = await without(content, [counted('B-1', 'R-38', 1)]);
    // Two of five are the other outing's.
    expect(stockIn(whole.task.text)).toBe(3);
    expect(whole.task.dropped).toEqual([]);
    const short = await without(content, [counted('B-1', 'C-1', 2), missing('B-1', 'C-1', 1)]);
    expect(stockIn(short.task.text)).toBe(2);
    expect(short.task.dropped).toEqual(['1 of C-1 asked for beyond what is needed']);
    expect(itemsOf(withoutIt(short.frozen, short.state, short).result, 'O1')).toContain('2 C-1');
  });
});

describe('what is the same lies where it lay', () => {
  const lines = mapOuting.items.map(({ id: item, bag, quantity, because }) => ({
    outing: 'o',
    bag,
    item,
    quantity,
    because,
  }));
  const things = [...new Set(lines.flatMap(({ bag, item }) => [bag, item]))].map((id) => ({
    id,
    name: id,
    kind: 'gear' as const,
    parts: 1,
  }));
  const state = (deeds: Deed[]) =>
    packState({ content: { planText: '', result: mapResult, things, lines, facts: [] } }, eventsOf(deeds), 'o');
  const lying = ({ items }: BagOuting): string[] => items.map(({ id, bag, quantity }) => `${quantity} ${id} ${bag}`);

  it('as it was frozen, counted or not', () => {
    const elsewhere = withBag(mapPlan, mapOuting, { item: 'T-07', from: 'C', pieces: 3 }, 'L');
    expect(lying(elsewhere)).not.toEqual(lying(mapOuting));
    expect(lying(asPacked(mapPlan, mapResult, elsewhere, state([])))).toEqual(lying(mapOuting));
  });

  it('two lines change places where neither bag takes one of them alone', () => {
    // Each bag takes one piece: W-10 and T-07 cannot move one after the other.
    const source = {
      ...mapSource,
      catalog: {
        ...mapSource.catalog,
        bags: [
          { id: 'A', name: 'A', itemsMax: 1 },
          { id: 'D', name: 'D', itemsMax: 1 },
        ],
      },
      outings: [{ id: 'o', name: 'o', roles: ['Lead'], bags: ['A', 'D'] }],
      steps: [
        {
          ...{ id: 'use', name: 'Use both', outing: 'o', role: 'Lead', action: 'use' },
          gear: [
            { id: 'T-07', quantity: 1 },
            { id: 'W-10', quantity: 1 },
          ],
        },
      ],
    };
    const plan = planFrom(source);
    const outing = (first: string, second: string): BagOuting => ({
      ...{ id: 'o', massKg: 0.168, steps: [{ id: 'use', stack: [], hold: null, setting: null }] },
      items: [
        { id: first, quantity: 1, bag: 'A', because: ['use'] },
        { id: second, quantity: 1, bag: 'D', because: ['use'] },
      ],
    });
    const frozen = outing('T-07', 'W-10');
    const own = frozen.items.map(({ id: item, bag, quantity, because }) => ({
      outing: 'o',
      bag,
      item,
      quantity,
      because,
    }));
    const named = ['A', 'D', 'T-07', 'W-10'].map((id) => ({ id, name: id, kind: 'gear' as const, parts: 1 }));
    const packed = packState(
      { content: { planText: '', result: mapResult, things: named, lines: own, facts: [] } },
      [],
      'o',
    );
    expect(lying(asPacked(plan, mapResult, outing('W-10', 'T-07'), packed)).toSorted()).toEqual(
      lying(frozen).toSorted(),
    );
  });
});
