/** Which of equally light bags is packed, and how seldom a role changes stacks. */
import { describe, expect, it } from 'vitest';
import { countsOf } from '../../../renderer/engine/bag/counts.ts';
import { planBag } from '../../../renderer/engine/bag/planBag.ts';
import type { Option } from '../../../renderer/engine/bag/settle/options.ts';
import { fewestChanges } from '../../../renderer/engine/bag/settle/toolChanges.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import { dice } from '../../reference/dice.ts';
import type { Edit } from '../../support/editJson.ts';
import { all, keep, put } from '../../support/editJson.ts';
import { smallPlan } from '../../support/smallPlan.ts';

const loosenOnly = all(keep('steps', 1), keep('catalog.extensions', 1));
const [, tighten] = smallPlan().steps;

describe('of equally light bags', () => {
  const stackOf = async (edit: Edit, minimise: 'mass' | 'count' = 'mass') => {
    const source = smallPlan();
    edit(source);
    const { outings } = await planBag(planFrom(source), { minimise });
    return outings[0]?.steps[0]?.stack.join(' ');
  };
  const reversed = put('catalog.sockets', smallPlan().catalog.sockets.toReversed());
  const swing = put('steps[0].access.swingDeg', 60);

  it('the one is packed that loosens with six points, whatever the order of the catalog', async () => {
    for (const edit of [loosenOnly, all(loosenOnly, swing)])
      for (const order of [edit, all(edit, reversed)]) expect(await stackOf(order)).toBe('R-38 X-3 S-9/16');
  });

  it('the one is packed that tightens with what comes first by its id', async () => {
    const only = put('steps', [tighten]);
    for (const order of [only, all(only, reversed)]) expect(await stackOf(order)).toBe('TT-2 X-3 S-9/16');
  });

  it('the one of fewer pieces is packed', async () => {
    // A socket of 5 in weighs what an extension and a short socket do.
    const deep = { ...smallPlan().catalog.sockets[0], id: 'Z-deep', length: '5 in', mass: '170 g' };
    expect(await stackOf(all(loosenOnly, put('catalog.sockets[1]', deep)))).toBe('R-38 Z-deep');
    const lighter = all(loosenOnly, put('catalog.sockets[1]', { ...deep, mass: '171 g' }));
    expect(await stackOf(lighter)).toBe('R-38 X-3 S-9/16');
    expect(await stackOf(lighter, 'count')).toBe('R-38 Z-deep');
  });
});

describe('the fewest changes of stack', () => {
  it('are as few as on every other way through the steps, and of several ways the first by ids', () => {
    const roll = dice(11);
    for (let round = 0; round < 200; round += 1) {
      const course = Array.from({ length: roll.whole(1, 6) }, (_, n) => {
        const ids = ['a', 'b', 'c', 'd'].filter(() => roll.chance(0.5));
        const options = (ids.length > 0 ? ids : [roll.pick(['a', 'b', 'c', 'd'] as const)]).map((id): Option => ({
          stack: { parts: {} as Option['stack']['parts'], ids: [id], counts: countsOf([id]) },
          hold: null,
          counts: countsOf([id]),
          parts: 1,
          corners: 0,
          ids: id,
        }));
        return { step: `s${n}`, options };
      });
      let ways: string[][] = [[]];
      for (const { options } of course) ways = ways.flatMap((way) => options.map(({ ids }) => [...way, ids]));
      const changes = (way: readonly string[]) => way.filter((id, n) => n > 0 && id !== way[n - 1]).length;
      const fewest = Math.min(...ways.map(changes));
      // Of the product, which is in the order of the ids, the first.
      const first = ways.find((way) => changes(way) === fewest);
      expect([...fewestChanges(course).values()].map(({ ids }) => ids)).toEqual(first);
    }
  });
});
