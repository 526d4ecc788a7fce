import { beforeAll, describe, expect, it } from 'vitest';
import type { BagOuting } from '../../../shared-types/bag.ts';
import { planBag } from '../../../renderer/engine/bag/planBag.ts';
import { recheckOuting } from '../../../renderer/engine/bag/recheck.ts';
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
});
