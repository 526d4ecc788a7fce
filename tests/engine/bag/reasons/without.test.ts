/** What becomes of the small plan without each of its pieces, as it can be followed by hand. */
import { describe, expect, it } from 'vitest';
import { all, append, keep, put } from '../../../support/editJson.ts';
import { smallPlan } from '../../../support/smallPlan.ts';
import { anotherStep, reasonsOf } from './asked.ts';

describe('without an item', () => {
  it('the cheapest replacement is named, with what goes out for it and what it costs more', async () => {
    const { reasons } = await reasonsOf(put('catalog.sockets[1].mass', '75 g'), ['without']);
    // 3 in against 6 in: 200 g for 110 g. Six points of 60 g against twelve of 75 g.
    expect(reasons.without.find(({ id }) => id === 'X-3')).toEqual({
      outing: 'O1',
      id: 'X-3',
      packed: 1,
      left: 0,
      unit: 'kg',
      againstWish: false,
      outcome: 'proven',
      cost: { value: 0.09, bound: 0.09 },
      comesIn: [{ id: 'X-6', quantity: 1 }],
      goesOut: [{ id: 'X-3', quantity: 1 }],
      changed: [
        { id: 'loosen', stack: ['R-38', 'X-6', 'S-9/16'], hold: null },
        { id: 'tighten', stack: ['TT-2', 'X-6', 'S-9/16'], hold: null },
      ],
      fails: [],
      conflicts: [],
    });
    expect(reasons.without.find(({ id }) => id === 'S-9/16')).toMatchObject({
      cost: { value: 0.015, bound: 0.015 },
      comesIn: [{ id: 'S-9/16-12', quantity: 1 }],
    });
  });

  it('counts pieces where pieces are minimised', async () => {
    const deep = { ...smallPlan().catalog.sockets[0], id: 'deep', length: '4 in', mass: '2 kg' };
    const two = all(append('catalog.sockets', deep), keep('catalog.extensions', 1));
    const { reasons } = await reasonsOf(two, ['without'], { minimise: 'count' });
    expect(reasons.without.map(({ id, unit, cost, comesIn }) => [id, unit, cost?.value, comesIn.length])).toEqual([
      ['R-38', 'pieces', undefined, 0],
      ['TT-2', 'pieces', undefined, 0],
      ['deep', 'pieces', 1, 2],
      ['C-1', 'pieces', undefined, 0],
    ]);
  });

  it('the steps that need it fail where nothing replaces it, with what comes closest and is not the item itself', async () => {
    const weak = { ...smallPlan().catalog.drivers[0], id: 'weak', max: '40 lbf·ft' };
    const { reasons } = await reasonsOf(append('catalog.drivers', weak), ['without']);
    const found = reasons.without.find(({ id }) => id === 'R-38');
    expect(found).toMatchObject({ outcome: 'infeasible', cost: null, conflicts: [] });
    expect(found?.fails.map(({ step }) => step)).toEqual(['loosen']);
    expect(found?.fails[0]?.closest[0]).toMatchObject({
      stack: ['weak', 'X-3', 'S-9/16'],
      fails: [{ check: 'strength', have: '40 lbf·ft', need: '42 lbf·ft' }],
    });
  });

  it('steps that list it as gear, or take it out of the bag, fail', async () => {
    const moved = all(
      put('places', [{ id: 'foot' }]),
      put('steps[0].moves', [{ id: 'C-1', quantity: 1, from: 'bag', to: 'foot' }]),
    );
    const { reasons } = await reasonsOf(moved, ['without']);
    const gear = reasons.without.filter(({ id }) => id === 'C-1');
    expect(gear).toHaveLength(1);
    expect(gear[0]).toMatchObject({ packed: 3, left: 0, outcome: 'infeasible' });
    expect(gear[0]?.fails.map(({ step, closest }) => [step, closest[0]?.fails[0]?.need])).toEqual([
      ['loosen', '1 piece'],
      ['cap', '2 pieces'],
    ]);
  });

  it('comes in the order of the catalog, tools, extensions, sockets, gear, outing after outing', async () => {
    const oneSocket = keep('catalog.sockets', 1);
    const { reasons } = await reasonsOf(oneSocket, ['without']);
    expect(reasons.without.map(({ id }) => id)).toEqual(['R-38', 'TT-2', 'X-3', 'S-9/16', 'C-1']);
    const again = all(
      oneSocket,
      append('outings', { ...smallPlan().outings[0], id: 'O2' }),
      append('steps', anotherStep({ id: 'again', outing: 'O2' })),
    );
    const both = (await reasonsOf(again, ['without'])).reasons.without;
    expect(both.map(({ outing, id }) => `${outing} ${id}`).slice(4)).toEqual([
      'O1 C-1',
      'O2 R-38',
      'O2 X-3',
      'O2 S-9/16',
    ]);
    // Each outing by itself: what the other one packs is no matter.
    expect(both.find(({ outing, id }) => outing === 'O2' && id === 'X-3')?.changed.map(({ id }) => id)).toEqual([
      'again',
    ]);
  });
});

describe('of several of one item', () => {
  const twoRoles = all(
    put('catalog.drivers[0].onHand', 2),
    put('catalog.extensions[0].onHand', 2),
    keep('catalog.sockets', 1),
    put('catalog.sockets[0].onHand', 2),
    put('steps', [anotherStep({ id: 'a', slot: 's' }), anotherStep({ id: 'b', slot: 's', role: 'Second' })]),
  );

  it('one fewer is asked for before all of them', async () => {
    const { reasons } = await reasonsOf(twoRoles, ['without']);
    expect(reasons.without.map(({ id, packed, left }) => [id, packed, left])).toEqual([
      ['R-38', 2, 1],
      ['R-38', 2, 0],
      ['X-3', 2, 1],
      ['X-3', 2, 0],
      ['S-9/16', 2, 1],
      ['S-9/16', 2, 0],
    ]);
    const one = reasons.without.find(({ id, left }) => id === 'X-3' && left === 1);
    expect(one).toMatchObject({
      cost: { value: 0.09 },
      comesIn: [{ id: 'X-6', quantity: 1 }],
      goesOut: [{ id: 'X-3', quantity: 1 }],
    });
    const all2 = reasons.without.find(({ id, left }) => id === 'X-3' && left === 0);
    // One extension of 6 in is no two: both steps are possible, and not at the same time.
    expect(all2?.fails.map(({ step }) => step)).toEqual([undefined]);
    expect(all2?.conflicts).toMatchObject([{ steps: ['a', 'b'] }]);
    expect(all2?.conflicts[0]?.eased.map(({ limit, needs }) => [limit, needs])).toEqual([
      [{ kind: 'stock', id: 'X-6' }, 2],
      [{ kind: 'slot', slot: 's' }, null],
    ]);
  });
});
