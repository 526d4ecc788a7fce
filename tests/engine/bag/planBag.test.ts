import { describe, expect, it } from 'vitest';
import type { BagOptions } from '../../../renderer/engine/bag/planBag.ts';
import { planBag } from '../../../renderer/engine/bag/planBag.ts';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import type { Edit } from '../../support/editJson.ts';
import { all, append, keep, put, remove } from '../../support/editJson.ts';
import { smallPlan } from '../../support/smallPlan.ts';

function solve(edit: Edit = all(), options: Partial<BagOptions> = {}) {
  const source = smallPlan();
  edit(source);
  return planBag(planFrom(source), { minimise: 'mass', ...options });
}

const linesOf = (result: Awaited<ReturnType<typeof solve>>, outing = 0) =>
  result.outings[outing]?.items.map(({ id, quantity, bag }) => `${quantity} ${id} in ${bag}`);

/** Two roles that loosen at the same time. */
const slotted: Edit = (plan) => {
  const [loosen] = smallPlan().steps;
  put(
    'steps',
    ['Lead', 'Second'].map((role) => ({ ...loosen, id: `loosen-${role}`, role, slot: 'both' })),
  )(plan);
};

/** Two of each socket, extension and driver on hand. */
const twoOfEach = all(
  ...['sockets[0]', 'sockets[1]', 'extensions[0]', 'extensions[1]', 'drivers[0]'].map((item) =>
    put(`catalog.${item}.onHand`, 2),
  ),
);

describe('the bag of one small plan', () => {
  it('is the least, adds up, and says why each line is there', async () => {
    const result = await solve();
    // 300 + 900 + 110 + 60 + 2·20 g of pieces and gear, and the bag's own 500 g.
    expect(result).toMatchObject({ status: 'optimal', objective: { minimised: 'mass', unit: 'kg', gap: 0 } });
    expect(result.objective?.value).toBeCloseTo(1.91, 12);
    expect(result.objective?.bound).toBe(result.objective?.value);
    expect(result.outings[0]?.massKg).toBeCloseTo(1.91, 12);
    expect(linesOf(result)).toEqual([
      '1 R-38 in B-1',
      '1 TT-2 in B-1',
      '1 X-3 in B-1',
      '1 S-9/16 in B-1',
      '2 C-1 in B-1',
    ]);
    expect(result.outings[0]?.items.map((item) => item.because)).toEqual([
      ['loosen'],
      ['tighten'],
      ['loosen', 'tighten'],
      ['loosen', 'tighten'],
      ['cap'],
    ]);
    expect(result.outings[0]?.steps[1]?.setting).toEqual({ value: 32.5, unit: 'lbf·ft' });
  });

  it('counts pieces where pieces are counted, and litres where volume is', async () => {
    const count = await solve(all(), { minimise: 'count' });
    expect(count.objective).toMatchObject({ minimised: 'count', value: 6, unit: 'pieces' });
    const items = [
      'sockets[0]',
      'sockets[1]',
      'extensions[0]',
      'extensions[1]',
      'drivers[0]',
      'torqueTools[0]',
      'carryGear[0]',
    ];
    const volumes = all(...items.map((item) => put(`catalog.${item}.volume`, '100 mL')));
    const volume = await solve(volumes, { minimise: 'volume' });
    expect(volume.objective).toMatchObject({ minimised: 'volume', unit: 'L' });
    expect(volume.objective?.value).toBeCloseTo(0.6, 12);
  });

  it('refuses to minimise a volume that is not given, and bags limited by one', async () => {
    await expect(solve(all(), { minimise: 'volume' })).rejects.toMatchObject({
      refusal: { code: 'missing-field' },
    });
    await expect(solve(put('catalog.bags[0].volumeMax', '5 L'))).rejects.toBeInstanceOf(RefusedError);
  });

  it('takes two of everything for two roles at once, from shared bags', async () => {
    const result = await solve(all(slotted, twoOfEach));
    expect(result.status).toBe('optimal');
    const quantities = result.outings[0]?.items
      .filter(({ id }) => !id.startsWith('S-'))
      .map(({ quantity }) => quantity);
    expect(quantities).toEqual([2, 2]);
    expect(
      result.outings[0]?.items.filter(({ id }) => id.startsWith('S-')).reduce((sum, i) => sum + i.quantity, 0),
    ).toBe(2);
  });

  it('names the steps, the piece and the numbers where two roles want one ratchet', async () => {
    const result = await solve(slotted);
    expect(result).toMatchObject({ status: 'infeasible', objective: null });
    expect(result.infeasible).toHaveLength(1);
    const [fault] = result.infeasible;
    expect(fault?.outing).toBe('O1');
    expect(fault?.reason).toMatch(/loosen-Lead.*loosen-Second/);
    expect(fault?.closest[0]?.fails).toContainEqual({
      check: 'stock',
      have: '1 piece of R-38 on hand',
      need: '2 pieces',
    });
  });

  it('lets one role after the other use one ratchet', async () => {
    const result = await solve(all(slotted, remove('steps[0].slot'), remove('steps[1].slot')));
    expect(linesOf(result)).toEqual(['1 R-38 in B-1', '1 X-3 in B-1', '1 S-9/16 in B-1']);
  });

  it('keeps a role’s pieces out of another role’s bag', async () => {
    const bags = [
      { id: 'B-L', role: 'Lead', mass: '900 g' },
      { id: 'B-S', role: 'Second', mass: '100 g' },
    ];
    const result = await solve(all(put('catalog.bags', bags), put('outings[0].bags', ['B-L', 'B-S'])));
    expect(linesOf(result)).toEqual([
      '1 R-38 in B-L',
      '1 TT-2 in B-L',
      '1 X-3 in B-L',
      '1 S-9/16 in B-L',
      '2 C-1 in B-S',
    ]);
  });

  it('leaves an empty bag at home and counts the mass of one that is used', async () => {
    const bags = [
      { id: 'B-heavy', mass: '700 g' },
      { id: 'B-light', mass: '300 g', itemsMax: 6 },
    ];
    const two = all(put('catalog.bags', bags), put('outings[0].bags', ['B-heavy', 'B-light']));
    const light = await solve(two);
    expect(new Set(light.outings[0]?.items.map(({ bag }) => bag))).toEqual(new Set(['B-light']));
    const split = await solve(all(two, put('catalog.bags[1].itemsMax', 5)));
    expect(split.objective?.value).toBeCloseTo(1.41 + 0.7, 12);
  });

  const limits: [string, Edit, Edit, RegExp][] = [
    [
      'mass',
      put('catalog.bags[0].massMax', '1.41 kg'),
      put('catalog.bags[0].massMax', '1.409 kg'),
      /1\.409 kg, 1\.41 kg needed/,
    ],
    ['items', put('catalog.bags[0].itemsMax', 6), put('catalog.bags[0].itemsMax', 5), /5 pieces, 6 pieces needed/],
    [
      'tether points',
      put('catalog.bags[0].tetherPoints', 1),
      put('catalog.bags[0].tetherPoints', 0),
      /0 tether points, 1 tether points needed/,
    ],
  ];
  it.each(limits)('fills a bag to its limit of %s and no further', async (_name, at, beyond, reason) => {
    const tethered = put('catalog.torqueTools[0].tethers', 1);
    expect((await solve(all(tethered, at))).status).toBe('optimal');
    const over = await solve(all(tethered, beyond));
    expect(over.status).toBe('infeasible');
    expect(over.infeasible[0]?.reason).toMatch(reason);
  });

  it('passes an item of no given size and says that it did', async () => {
    const sizes = (driver: string) =>
      all(put('catalog.bags[0].sizeMax', '20 in'), put('catalog.drivers[0].size', driver));
    const sized = await solve(sizes('10 in'));
    expect(sized.unchecked).toContainEqual({ rule: 'sizeMax', items: ['TT-2', 'X-3', 'S-9/16', 'C-1'] });
    const long = await solve(sizes('21 in'));
    expect(long.infeasible[0]?.step).toBe('loosen');
    const need = '533.4 mm for R-38';
    expect(long.infeasible[0]?.closest[0]).toEqual({
      stack: ['R-38', 'X-3', 'S-9/16'],
      fails: [{ check: 'bag', have: 'room for 508 mm', need }],
    });
  });

  it('holds with a driver of its own and the step’s strength', async () => {
    const held = all(put('steps[1].hold', { fastener: 'F1' }), put('catalog.sockets[0].onHand', 2));
    const result = await solve(held);
    expect(result.status).toBe('optimal');
    expect(result.outings[0]?.steps[1]?.stack[0]).toBe('TT-2');
    expect(result.outings[0]?.steps[1]?.hold?.[0]).toBe('R-38');
    const none = await solve(all(held, keep('catalog.drivers', 0)));
    expect(none.infeasible.find(({ step }) => step === 'tighten')?.closest[0]?.fails[0]?.check).toBe('hold');
    const onePiece = await solve(all(held, keep('catalog.sockets', 1), put('catalog.sockets[0].onHand', 1)));
    expect(onePiece.infeasible.map(({ step }) => step)).toEqual(['tighten']);
    expect(onePiece.infeasible[0]?.closest[0]?.fails).toEqual([
      { check: 'stock', have: '1 piece of S-9/16 on hand', need: '2 pieces at once' },
    ]);
  });

  it('refuses gear that is not there, or is used up by an earlier outing', async () => {
    const short = await solve(put('steps[2].gear[0].quantity', 5));
    expect(short.infeasible[0]).toMatchObject({
      outing: 'O1',
      closest: [{ fails: [{ check: 'stock', have: '4 pieces', need: '5 pieces' }] }],
    });
    const again = (consumed: boolean) =>
      all(
        put('catalog.carryGear[0]', { id: 'C-1', mass: '20 g', onHand: 3, consumed }),
        append('outings', { id: 'O2', roles: ['Lead'], bags: ['B-1'] }),
        append('steps', { id: 'again', outing: 'O2', role: 'Lead', action: 'use', gear: [{ id: 'C-1', quantity: 2 }] }),
      );
    expect((await solve(again(false))).status).toBe('optimal');
    expect((await solve(again(true))).infeasible[0]).toMatchObject({ outing: 'O2' });
  });

  it('gives the same bytes for the same input', async () => {
    const texts = await Promise.all(Array.from({ length: 5 }, async () => JSON.stringify(await solve(slotted))));
    expect(new Set(texts).size).toBe(1);
    const bags = await Promise.all(Array.from({ length: 5 }, async () => JSON.stringify(await solve())));
    expect(new Set(bags).size).toBe(1);
  });

  it('says "stopped" with a bag and a bound where its time is out, never "optimal"', async () => {
    const { catalog, steps } = smallPlan();
    const [socket] = catalog.sockets;
    const [extension] = catalog.extensions;
    const [driver] = catalog.drivers;
    // Many near-equal parts: no proof comes in a nanosecond.
    const many = all(
      ...Array.from({ length: 5 }, (_, n) =>
        all(
          append('catalog.sockets', { ...socket, id: `S${n}`, mass: `${60 + n} g` }),
          append('catalog.extensions', { ...extension, id: `X${n}`, mass: `${110 + n} g`, length: `${3 + n / 10} in` }),
          append('catalog.drivers', { ...driver, id: `R${n}`, mass: `${300 + n} g` }),
          append('steps', { ...steps[0], id: `more-${n}`, access: { depth: `${2 + n / 5} in` } }),
        ),
      ),
    );
    const result = await solve(many, { timeLimitS: 1e-9 });
    const proven = await solve(many);
    expect([result.status, proven.status]).toEqual(['stopped', 'optimal']);
    const [value = 0, bound = 0, least = 0] = [
      result.objective?.value,
      result.objective?.bound,
      proven.objective?.value,
    ];
    expect(value).toBeGreaterThanOrEqual(least - 1e-9);
    expect(bound).toBeLessThanOrEqual(least + 1e-9);
    expect(bound).toBeGreaterThan(0);
    expect(result.objective?.gap).toBeCloseTo((value - bound) / value, 12);
    expect(result.outings[0]?.items.length).toBeGreaterThan(0);
  });

  it('sets no torque tool that only loosens', async () => {
    const { outings } = await solve(all(keep('catalog.drivers', 0), put('catalog.torqueTools[0].loosens', true)));
    expect(outings[0]?.steps.map(({ stack, setting }) => [stack[0], setting?.value])).toEqual([
      ['TT-2', undefined],
      ['TT-2', 32.5],
      [undefined, undefined],
    ]);
  });

  it('needs no bag for nothing', async () => {
    const result = await solve(put('steps', []));
    expect(result).toMatchObject({
      status: 'optimal',
      objective: { value: 0, gap: 0 },
      outings: [{ id: 'O1', massKg: 0, items: [] }],
    });
  });
});
