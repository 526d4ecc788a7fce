/** Losses that a step does not survive even by itself. */
import { describe, expect, it } from 'vitest';
import { lossesNotSurvived } from '../../../../renderer/engine/bag/reasons/faults/losses.ts';
import { planFrom } from '../../../../renderer/engine/plan/readPlan.ts';
import type { Edit } from '../../../support/editJson.ts';
import { all, append, keep, put } from '../../../support/editJson.ts';
import { smallPlan } from '../../../support/smallPlan.ts';
import { anotherStep } from './asked.ts';

async function losses(edit: Edit, tolerance: 'nothing' | 'piece' | 'bag') {
  const source = smallPlan();
  edit(source);
  return lossesNotSurvived(planFrom(source), 'O1', { minimise: 'mass', tolerance });
}

const lost = (found: Awaited<ReturnType<typeof losses>>) =>
  found.map(({ step, lost: what }) => [step, Object.values(what)[0]]);
const [driver] = smallPlan().catalog.drivers;

describe('the loss of one piece', () => {
  it('is not survived by a step all of whose stacks have it: of two extensions or sockets either may be lost', async () => {
    expect(lost(await losses(() => undefined, 'piece'))).toEqual([
      ['loosen', 'R-38'],
      ['tighten', 'TT-2'],
    ]);
    expect(lost(await losses(keep('catalog.extensions', 1), 'piece'))).toEqual([
      ['loosen', 'R-38'],
      ['loosen', 'X-3'],
      ['tighten', 'TT-2'],
      ['tighten', 'X-3'],
    ]);
  });

  it('is told with what comes nearest to a second stack', async () => {
    const weak = append('catalog.drivers', { ...driver, id: 'weak', max: '40 lbf·ft' });
    const [found] = await losses(weak, 'piece');
    expect(found?.closest[0]).toMatchObject({ stack: ['weak', 'X-3', 'S-9/16'], fails: [{ check: 'strength' }] });
    expect(found?.reason).toBe(
      'step loosen (3/8-24 UNF-3A, 9/16 in hex head): does not survive the loss of one R-38; for a second stack the nearest, weak + X-3 + S-9/16, has strength 40 lbf·ft, needs 42 lbf·ft',
    );
  });

  it('is survived where a second one is on hand, and counts for a hold as well', async () => {
    const held = put('steps[0].hold', { fastener: 'F1', access: { depth: '1 in' } });
    const two = put('catalog.drivers[0].onHand', 2);
    expect(lost(await losses(all(keep('steps', 1), two), 'piece'))).toEqual([]);
    // Stack and hold take both drivers, both sockets and one extension.
    expect(lost(await losses(all(keep('steps', 1), two, held, keep('catalog.extensions', 1)), 'piece'))).toEqual([
      ['loosen', 'R-38'],
      ['loosen', 'X-3'],
      ['loosen', 'S-9/16'],
      ['loosen', 'S-9/16-12'],
    ]);
  });

  it('is asked for once where steps ask the same, and told of each', async () => {
    const again = put('steps', [anotherStep({ id: 'a' }), anotherStep({ id: 'b' })]);
    expect(lost(await losses(again, 'piece'))).toEqual([
      ['a', 'R-38'],
      ['b', 'R-38'],
    ]);
  });

  it('is no matter of gear, nor where nothing may be lost', async () => {
    expect(lost(await losses(keep('steps', 3), 'nothing'))).toEqual([]);
    expect((await losses(keep('steps', 3), 'piece')).map(({ step }) => step)).not.toContain('cap');
  });
});

describe('the loss of a bag', () => {
  const bags = (...list: Record<string, unknown>[]): Edit =>
    all(
      put('catalog.bags', list),
      put(
        'outings[0].bags',
        list.map(({ id }) => id),
      ),
    );

  it('is not survived where it is the only one', async () => {
    const found = await losses(keep('steps', 1), 'bag');
    expect(lost(found)).toEqual([['loosen', 'B-1']]);
    expect(found[0]?.reason).toMatch(/does not survive the loss of bag B-1; nothing comes near a second stack$/);
  });

  it('is not survived where the others take no stack of the step, gear not counted', async () => {
    const small = bags({ id: 'A' }, { id: 'B', itemsMax: 2 }, { id: 'C', role: 'Second' });
    const geared = put('steps[0].gear', [{ id: 'C-1', quantity: 3 }]);
    expect(lost(await losses(all(keep('steps', 1), small, geared), 'bag'))).toEqual([['loosen', 'A']]);
    const three = bags({ id: 'A' }, { id: 'B', itemsMax: 3 });
    expect(lost(await losses(all(keep('steps', 1), three, geared), 'bag'))).toEqual([]);
  });
});
