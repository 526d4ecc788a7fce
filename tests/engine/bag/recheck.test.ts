import { beforeAll, describe, expect, it } from 'vitest';
import type { BagOuting } from '../../../shared-types/bag.ts';
import { planBag } from '../../../renderer/engine/bag/planBag.ts';
import { readdObjective, recheckOuting } from '../../../renderer/engine/bag/recheck.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import type { ResolvedOuting } from '../../../renderer/engine/plan/resolved.ts';
import type { Edit } from '../../support/editJson.ts';
import { listAt, put } from '../../support/editJson.ts';
import { smallPlan } from '../../support/smallPlan.ts';

const source = smallPlan();
Object.assign(source.catalog.bags[0] ?? {}, { itemsMax: 6, tetherPoints: 1, sizeMax: '20 in' });
Object.assign(source.catalog.torqueTools[0] ?? {}, { tethers: 1 });
const plan = planFrom(source);
const outing = plan.outings[0] as ResolvedOuting;
let right: BagOuting;

beforeAll(async () => {
  right = (await planBag(plan, { minimise: 'mass' })).outings[0] as BagOuting;
});

/** A copy of the right answer with one thing wrong. */
function faulty(edit: Edit): string[] {
  const copy = structuredClone(right);
  edit(copy);
  return recheckOuting(plan, outing, copy);
}

const faults: [string, Edit, RegExp][] = [
  ['a line of nothing', put('items[0].id', 'no-such-item'), /no line of this outing/],
  ['a bag of another outing', put('items[0].bag', 'B-9'), /no line of this outing/],
  ['half a piece', put('items[0].quantity', 0.5), /no line of this outing/],
  ['a piece too few', (a) => listAt(a, 'items').splice(0, 1), /step loosen needs 1 × R-38/],
  ['a piece more than there is', put('items[3].quantity', 2), /2 × S-9\/16 taken, 1 on hand/],
  ['gear too few', put('items[4].quantity', 1), /1 × C-1 packed, 2 needed/],
  ['gear too many', put('items[4].quantity', 3), /7 items, at most 6/],
  ['a step left out', (a) => listAt(a, 'steps').splice(1, 1), /step tighten has no answer/],
  ['a stack that does not reach', put('steps[0].stack', ['R-38', 'S-9/16']), /fails reach/],
  ['a driver that tightens', put('steps[1].stack[0]', 'R-38'), /R-38 may not tighten/],
  ['a torque tool that may not loosen', put('steps[0].stack[0]', 'TT-2'), /TT-2 may not loosen/],
  ['no stack', put('steps[0].stack', []), /nothing is no stack/],
  ['a stack for hands', put('steps[2].stack', ['R-38', 'S-9/16']), /needs no stack/],
  ['a hold nobody asked for', put('steps[0].hold', ['R-38', 'X-3', 'S-9/16']), /nothing is to be held/],
  ['another setting', put('steps[1].setting.value', 33), /set elsewhere/],
  ['the same number of another unit', put('steps[1].setting.unit', 'N·m'), /set elsewhere/],
  ['a setting in place of none', put('steps[1].stack', ['R-38', 'X-3', 'S-9/16']), /has no setting/],
  ['a hold for hands', put('steps[2].hold', ['R-38', 'S-9/16']), /needs no stack/],
  ['a line of no pieces', put('items[0].quantity', 0), /0 × R-38 in B-1 is no line/],
  ['four extensions', put('steps[0].stack', ['R-38', 'X-3', 'X-3', 'X-6', 'X-6', 'S-9/16']), /4 extensions/],
  ['no setting', put('steps[1].setting', null), /has no setting/],
  ['another mass', put('massKg', 1.911), /mass adds up/],
];

describe('the second count', () => {
  it('finds nothing wrong with a right answer', () => {
    expect(recheckOuting(plan, outing, right)).toEqual([]);
  });

  it.each(faults)('finds %s', (_name, edit, said) => {
    expect(faulty(edit).join('; ')).toMatch(said);
  });

  it('finds a bag over each of its limits', () => {
    const over = (limit: object) => {
      const changed = structuredClone(source);
      Object.assign(changed.catalog.bags[0] ?? {}, limit);
      Object.assign(changed.catalog.torqueTools[0] ?? {}, { size: '19 in' });
      const strict = planFrom(changed);
      return recheckOuting(strict, strict.outings[0] as ResolvedOuting, right).join('; ');
    };
    expect(over({ massMax: '1 kg' })).toMatch(/1\.41.* kg, at most 1/);
    expect(over({ itemsMax: 2 })).toMatch(/6 items, at most 2/);
    expect(over({ tetherPoints: 0 })).toMatch(/1 tethers, at most 0/);
    expect(over({ sizeMax: '18 in' })).toMatch(/mm long, TT-2/);
    expect(over({ role: 'Second' })).toMatch(/holds TT-2, which no step of that role uses/);
  });

  it('finds two roles of a slot drawing on one piece', () => {
    const steps = ['Lead', 'Second'].map((role) => ({ ...source.steps[0], id: role, role, slot: 's' }));
    const slotted = planFrom({ ...source, steps });
    const stack = ['R-38', 'X-3', 'S-9/16'];
    const answer: BagOuting = {
      id: 'O1',
      massKg: 0.97,
      items: stack.map((id) => ({ id, quantity: 1, bag: 'B-1', because: ['Lead', 'Second'] })),
      steps: ['Lead', 'Second'].map((id) => ({ id, stack, hold: null, setting: null })),
    };
    const said = recheckOuting(slotted, slotted.outings[0] as ResolvedOuting, answer);
    expect(said).toHaveLength(3);
    expect(said.join('; ')).toMatch(/slot s draws 2 × R-38/);
  });

  it('counts gear that a role takes out of the bag as its own, and not what it brings home', () => {
    const moved = (from: string, to: string) => {
      const step = {
        id: 'take',
        outing: 'O1',
        role: 'Second',
        action: 'use',
        moves: [{ id: 'C-1', quantity: 2, from, to }],
      };
      const catalog = { ...source.catalog, bags: [{ id: 'B-1', role: 'Second', mass: '500 g' }] };
      const moving = planFrom({ ...source, catalog, places: [{ id: 'foot' }], steps: [step] });
      const items = [{ id: 'C-1', quantity: 2, bag: 'B-1', because: ['take'] }];
      const steps = [{ id: 'take', stack: [], hold: null, setting: null }];
      return recheckOuting(moving, moving.outings[0] as ResolvedOuting, { id: 'O1', massKg: 0.54, items, steps });
    };
    expect(moved('bag', 'foot')).toEqual([]);
    expect(moved('foot', 'bag')).toEqual([
      '2 × C-1 packed, 0 needed',
      'bag B-1 of Second holds C-1, which no step of that role uses',
    ]);
  });

  it('counts in a slot what a role needs most, less what its own bags hold', () => {
    const long = ['R-38', 'X-3', 'X-3', 'S-9/16'];
    const stacks: Record<string, string[]> = { a: ['R-38', 'X-3', 'S-9/16'], b: long, c: ['R-38', 'X-3', 'S-9/16'] };
    const steps = Object.keys(stacks).map((id) => {
      return { ...source.steps[0], id, role: id === 'c' ? 'Second' : 'Lead', slot: 's' };
    });
    const plenty = structuredClone(source.catalog);
    for (const piece of [...plenty.sockets, ...plenty.extensions, ...plenty.drivers]) piece.onHand = 9;
    const catalog = { ...plenty, bags: [{ id: 'B-1' }, { id: 'B-L', role: 'Lead' }, { id: 'B-S', role: 'Second' }] };
    const outings = [{ id: 'O1', roles: ['Lead', 'Second'], bags: ['B-1', 'B-L', 'B-S'] }];
    const slotted = planFrom({ ...source, catalog, outings, steps });
    const said = (...extensions: [quantity: number, bag: string][]) => {
      const lines: [string, number, string][] = [
        ['R-38', 2, 'B-1'],
        ['S-9/16', 2, 'B-1'],
        ...extensions.map(([quantity, bag]): [string, number, string] => ['X-3', quantity, bag]),
      ];
      const items = lines.map(([id, quantity, bag]) => ({ id, quantity, bag, because: [] }));
      const massKg = lines.reduce((sum, [id, n]) => sum + (slotted.carried.get(id)?.massKg ?? 0) * n, 0);
      const answers = Object.entries(stacks).map(([id, stack]) => ({ id, stack, hold: null, setting: null }));
      const answer = { id: 'O1', massKg, items, steps: answers };
      return recheckOuting(slotted, slotted.outings[0] as ResolvedOuting, answer);
    };
    expect(said([3, 'B-1'])).toEqual([]);
    expect(said([2, 'B-1'])).toEqual(['slot s draws 3 × X-3 from shared bags, which hold fewer']);
    expect(said([2, 'B-1'], [1, 'B-L'])).toEqual([]);
    expect(said([1, 'B-1'], [1, 'B-L'])).toEqual(['slot s draws 2 × X-3 from shared bags, which hold fewer']);
    expect(said([1, 'B-1'], [1, 'B-L'], [1, 'B-S'])).toEqual([]);
    expect(said([1, 'B-L'], [1, 'B-S'])).toEqual([
      'step b needs 2 × X-3, its bags hold fewer',
      'slot s draws 1 × X-3 from shared bags, which hold fewer',
    ]);
    expect(said([5, 'B-L'], [1, 'B-1'])).toEqual([]);
  });
});

describe('the objective, added up again', () => {
  const outings: BagOuting[] = [
    { id: 'O1', massKg: 1.5, items: [{ id: 'R-38', quantity: 3, bag: 'B-1', because: [] }], steps: [] },
    { id: 'O2', massKg: 0.25, items: [{ id: 'C-1', quantity: 2, bag: 'B-1', because: [] }], steps: [] },
  ];

  it('is the outings’ mass, their pieces, or their litres', () => {
    const litres = structuredClone(source);
    Object.assign(litres.catalog.drivers[0] ?? {}, { volume: '0.5 L' });
    Object.assign(litres.catalog.carryGear[0] ?? {}, { volume: '100 mL' });
    const measured = planFrom(litres);
    expect(readdObjective(measured, outings, 'mass')).toBe(1.75);
    expect(readdObjective(measured, outings, 'count')).toBe(5);
    expect(readdObjective(measured, outings, 'volume')).toBeCloseTo(1.7, 12);
  });
});
