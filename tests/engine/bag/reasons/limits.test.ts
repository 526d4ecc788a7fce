/** Which limits of the small plan bind, and what the bag would weigh without them. */
import { describe, expect, it } from 'vitest';
import { all, keep, put } from '../../../support/editJson.ts';
import { smallPlan } from '../../../support/smallPlan.ts';
import { anotherStep, reasonsOf } from './asked.ts';
import type { Edit } from '../../../support/editJson.ts';

const [loosen] = smallPlan().steps;
const oneSocket = keep('catalog.sockets', 1);
const bag = (id: string, bend: Record<string, unknown>) => ({ id, mass: '500 g', ...bend });
const bags = (...list: { id: string }[]): Edit =>
  all(
    put('catalog.bags', list),
    put(
      'outings[0].bags',
      list.map(({ id }) => id),
    ),
  );

async function limitsOf(edit: Edit, options: Parameters<typeof reasonsOf>[2] = {}) {
  const { reasons, result } = await reasonsOf(all(oneSocket, edit), ['limits'], options);
  return { ...reasons, value: result.objective?.value };
}

/** [what it is of, whether it binds, what is then carried]. */
const said = ({ limits }: Awaited<ReturnType<typeof limitsOf>>) =>
  limits.map(({ limit, binds, relaxed }) => [Object.values(limit).join(' '), binds, relaxed?.value]);

describe('a limit', () => {
  it('binds where the bag would weigh less without it, and is else told what is left of it', async () => {
    // The light extension is too long for the bag.
    const long = put('catalog.extensions[0].size', '5 in');
    const found = await limitsOf(all(keep('steps', 1), long, bags(bag('B', { sizeMax: '4 in', massMax: '2 kg' }))));
    expect(found.value).toBeCloseTo(0.5 + 0.3 + 0.2 + 0.06, 12);
    expect(said(found)).toEqual([
      ['massMax B', false, 1.06],
      ['sizeMax B', true, 0.97],
      ['stock R-38', false, 1.06],
      ['stock X-6', false, 1.06],
      ['stock S-9/16', false, 1.06],
    ]);
    expect(found.limits[0]).toMatchObject({ allowed: 2, used: 0.56, unit: 'kg', objectiveUnit: 'kg', outing: 'O1' });
    expect(found.limits[1]).toMatchObject({
      allowed: 101.6,
      used: 0,
      unit: 'mm',
      relaxed: { value: 0.97, bound: 0.97 },
    });
    expect(found.limits[2]).toMatchObject({ allowed: 1, used: 1, unit: 'pieces' });
  });

  it('of stock binds where one more piece saves something, though none of it is packed', async () => {
    // Out of stock, the light extension is not packed; with it the bag is 90 g lighter.
    const found = await limitsOf(all(keep('steps', 1), put('catalog.extensions[0].onHand', 0)));
    expect(said(found)).toContainEqual(['stock X-3', true, 0.97]);
    expect(found.limits.find(({ limit }) => 'id' in limit && limit.id === 'X-3')).toMatchObject({
      allowed: 0,
      used: 0,
    });
    expect(found.limitsTogether).toEqual([]);
  });

  it('of each of two bags may bind, and so may that steps run at the same time', async () => {
    const slot = put(
      'steps',
      [loosen, anotherStep({ id: 'b', role: 'Second' })].map((step) => ({ ...step, slot: 's' })),
    );
    const two = all(
      ...['drivers', 'extensions', 'sockets'].map((list) => put(`catalog.${list}[0].onHand`, 2)),
      slot,
      bags(bag('B', { itemsMax: 5 }), bag('C', { mass: '100 g', itemsMax: 1 })),
    );
    const found = await limitsOf(two);
    expect(found.value).toBeCloseTo(0.6 + 2 * 0.47, 12);
    // In the light bag alone 1.04 kg, in the other alone 1.44 kg; one after another they share one stack.
    expect(said(found)).toEqual([
      ['itemsMax B', true, 1.44],
      ['itemsMax C', true, 1.04],
      ['stock R-38', false, 1.54],
      ['stock X-3', false, 1.54],
      ['stock S-9/16', false, 1.54],
      ['slot s', true, 0.97],
    ]);
  });

  it('that binds only with another is told with it', async () => {
    // The light bag would do if it were both longer and stronger.
    const pair = bags(bag('B', {}), bag('L', { mass: '100 g', sizeMax: '4 in', massMax: '0.4 kg' }));
    const long = put('catalog.drivers[0].size', '8 in');
    const found = await limitsOf(all(keep('steps', 1), long, pair, keep('catalog.extensions', 1)));
    expect(found.limits.filter(({ binds }) => binds)).toEqual([]);
    expect(found.limitsTogether).toMatchObject([
      { outing: 'O1', objectiveUnit: 'kg', relaxed: { value: 0.57, bound: 0.57 } },
    ]);
    expect(found.limitsTogether[0]?.limits.map(({ limit }) => limit)).toEqual([
      { kind: 'massMax', bag: 'L' },
      { kind: 'sizeMax', bag: 'L' },
    ]);
  });

  it('is none of gear, whose number is fixed', async () => {
    const found = await limitsOf(put('catalog.carryGear[0].onHand', 2));
    expect(said(found).map(([what]) => what)).not.toContain('stock C-1');
  });

  it('is held against the objective that is minimised', async () => {
    const found = await limitsOf(all(keep('steps', 1), put('catalog.bags[0].itemsMax', 3)), { minimise: 'count' });
    expect(found.limits.find(({ limit }) => limit.kind === 'itemsMax')).toMatchObject({
      binds: false,
      objectiveUnit: 'pieces',
      relaxed: { value: 3 },
      allowed: 3,
      used: 3,
    });
  });
});
