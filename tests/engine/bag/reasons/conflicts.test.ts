/** Steps that are possible each by itself and not together: which, and what stands in their way. */
import { describe, expect, it } from 'vitest';
import type { StepConflict } from '../../../../shared-types/bagReasons.ts';
import type { Edit } from '../../../support/editJson.ts';
import { all, append, keep, put } from '../../../support/editJson.ts';
import { smallPlan } from '../../../support/smallPlan.ts';
import { anotherStep, reasonsOf } from './asked.ts';

const simple = all(keep('catalog.sockets', 1), keep('catalog.extensions', 1));
const steps = (...bends: Record<string, unknown>[]): Edit =>
  put(
    'steps',
    bends.map((bend, index) => anotherStep({ id: `s${index + 1}`, ...bend })),
  );

async function conflictsOf(edit: Edit): Promise<StepConflict[]> {
  return (await reasonsOf(all(simple, edit), ['faults'])).reasons.conflicts;
}

const eased = ({ eased: list }: StepConflict) =>
  list.map(({ limit, allowed, needs, unit }) => [Object.values(limit).join(' '), allowed, needs, unit]);

describe('steps that do not go together', () => {
  it('at the same time are told the pieces both need, and the slot', async () => {
    const [conflict, ...more] = await conflictsOf(steps({ slot: 's' }, {}, { slot: 's', role: 'Second' }));
    expect(more).toEqual([]);
    expect(conflict).toMatchObject({ outing: 'O1', tolerance: 'nothing', steps: ['s1', 's3'], easedTogether: [] });
    // Driver, extension and socket are wanted twice: no one of them is enough, so only the slot mends it alone.
    expect(conflict && eased(conflict)).toEqual([['slot s', null, null, null]]);
  });

  it('for want of one piece are told how many of it they need', async () => {
    const others = all(put('catalog.drivers[0].onHand', 2), put('catalog.sockets[0].onHand', 2));
    const [conflict] = await conflictsOf(all(others, steps({ slot: 's' }, { slot: 's', role: 'Second' })));
    expect(conflict && eased(conflict)).toEqual([
      ['stock X-3', 1, 2, 'pieces'],
      ['slot s', null, null, null],
    ]);
    expect(conflict?.reason).toBe(
      'outing O1: step s1 (3/8-24 UNF-3A, 9/16 in hex head), step s2 (3/8-24 UNF-3A, 9/16 in hex head) cannot be packed together, though without any one of them the rest can: stock of X-3: 1 piece, 2 pieces needed; or slot s: its steps at the same time',
    );
  });

  it('in one bag are told the bag, with the least that would do', async () => {
    const whole = put('steps', smallPlan().steps);
    const [conflict] = await conflictsOf(all(whole, put('catalog.bags[0].massMax', '1.3 kg')));
    // 300 + 900 + 110 + 60 g; each stack by itself is within 1.3 kg. The caps have nothing to do with it.
    expect(conflict?.steps).toEqual(['loosen', 'tighten']);
    expect(conflict?.eased).toMatchObject([
      { limit: { kind: 'massMax', bag: 'B-1' }, allowed: 1.3, unit: 'kg', least: true },
    ]);
    expect(conflict?.eased[0]?.needs).toBeCloseTo(1.37, 9);
    const [counted] = await conflictsOf(all(whole, put('catalog.bags[0].itemsMax', 3)));
    expect(counted && eased(counted)).toEqual([['itemsMax B-1', 3, 4, 'pieces']]);
  });

  it('for want of gear are told the gear', async () => {
    const use = (id: string, quantity: number) => ({
      id,
      action: 'use',
      fastener: undefined,
      gear: [{ id: 'C-1', quantity }],
    });
    const found = await conflictsOf(steps(use('a', 1), use('b', 3), use('c', 3)));
    expect(found.map((conflict) => [conflict.steps, eased(conflict)])).toEqual([
      [['b', 'c'], [['stock C-1', 4, 6, 'pieces']]],
    ]);
  });

  it('for two limits are told both where neither alone mends it', async () => {
    const both = all(
      put('steps', smallPlan().steps),
      put('catalog.bags[0].massMax', '1.3 kg'),
      put('catalog.bags[0].itemsMax', 3),
    );
    const [pair] = await conflictsOf(both);
    expect(pair).toMatchObject({ steps: ['loosen', 'tighten'], eased: [] });
    expect(pair?.easedTogether.map(({ limit }) => limit.kind)).toEqual(['massMax', 'itemsMax']);
    expect(pair?.reason).toMatch(
      /only together stand in the way: bag B-1: mass 1\.3 kg, bag B-1: number of pieces 3 pieces$/,
    );
  });

  it('are all said, each step once, up to so many; steps impossible by themselves are in none', async () => {
    const pairs = Array.from({ length: 7 }, (_, n) => [
      { id: `${n}a`, slot: `s${n}` },
      { id: `${n}b`, slot: `s${n}`, role: 'Second' },
    ]).flat();
    const found = await conflictsOf(steps(...pairs, { id: 'deep', access: { depth: '90 in' } }));
    expect(found).toHaveLength(5);
    const named = found.flatMap((conflict) => conflict.steps);
    expect(new Set(named).size).toBe(10);
    expect(named).not.toContain('deep');
  });

  it('are none where a step by itself is at fault', async () => {
    expect(await conflictsOf(all(put('steps', smallPlan().steps), put('catalog.bags[0].massMax', '1 kg')))).toEqual([]);
  });
});

describe('gear that several outings use up', () => {
  const outings = (...quantities: number[]): Edit =>
    all(
      put('catalog.carryGear[0]', { id: 'C-1', mass: '20 g', onHand: 5, consumed: true }),
      put(
        'outings',
        quantities.map((_, n) => ({ id: `O${n}`, roles: ['Lead'], bags: ['B-1'] })),
      ),
      put(
        'steps',
        quantities.map((quantity, n) => ({
          id: `s${n}`,
          outing: `O${n}`,
          role: 'Lead',
          action: 'use',
          gear: [{ id: 'C-1', quantity }],
        })),
      ),
    );

  it('is named with the steps that together go beyond the stock', async () => {
    const found = await conflictsOf(outings(1, 3, 3, 2));
    expect(found.map((conflict) => [conflict.outing, conflict.steps, eased(conflict)])).toEqual([
      ['O2', ['s1', 's2'], [['stock C-1', 5, 6, 'pieces']]],
    ]);
    expect(await conflictsOf(outings(1, 2, 2))).toEqual([]);
  });
});

describe('a plan that can be done', () => {
  it('has no faults', async () => {
    const { reasons } = await reasonsOf(append('catalog.carryGear', { id: 'C-2', mass: '1 g', onHand: 1 }), ['faults']);
    expect([reasons.conflicts, reasons.losses]).toEqual([[], []]);
  });
});
