/** Why there is no bag: which step, which bag, by how much, and only what has to do with it. */
import { describe, expect, it } from 'vitest';
import { planBag } from '../../../renderer/engine/bag/planBag.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import type { Edit } from '../../support/editJson.ts';
import { all, append, keep, put } from '../../support/editJson.ts';
import { smallPlan } from '../../support/smallPlan.ts';

async function faults(edit: Edit) {
  const source = smallPlan();
  edit(source);
  return (await planBag(planFrom(source), { minimise: 'mass' })).infeasible;
}

const reasons = async (edit: Edit) => (await faults(edit)).map(({ reason }) => reason);

const [loosen, tighten] = smallPlan().steps;
const head = '(3/8-24 UNF-3A, 9/16 in hex head)';
const short = all(keep('catalog.extensions', 0), keep('catalog.sockets', 1));
const held = put('steps[1].hold', { fastener: 'F1', access: { depth: '1 in' } });

describe('a step for which the catalog has no stack', () => {
  it('has the nearest one named with what it has and needs', async () => {
    expect(await reasons(all(short, keep('steps', 1)))).toEqual([
      `step loosen ${head}: no stack of the catalog passes every check; the nearest has reach 1.25 in, needs 2 in`,
    ]);
    const [twofold] = await reasons(all(short, keep('steps', 1), put('steps[0].demand', '80 lbf·ft')));
    expect(twofold).toMatch(/the nearest has reach 1\.25 in, needs 2 in and strength 75 lbf·ft, needs 80 lbf·ft$/);
  });

  it.each<[string, Edit, number, string]>([
    ['no torque tool to tighten with', keep('catalog.torqueTools', 0), 1, '; it holds no torque tool'],
    ['nothing to loosen with', keep('catalog.drivers', 0), 0, '; it holds nothing that may loosen'],
    ['no socket', keep('catalog.sockets', 0), 0, '; it holds no socket'],
    [
      'no socket, with a driver',
      all(keep('catalog.sockets', 0), keep('catalog.torqueTools', 0)),
      0,
      '; it holds no socket',
    ],
    [
      'no socket, with a torque tool',
      all(keep('catalog.sockets', 0), keep('catalog.drivers', 0)),
      1,
      '; it holds no socket',
    ],
    ['no socket, to tighten', keep('catalog.sockets', 0), 1, '; it holds no socket'],
  ])('is told that there is %s', async (_name, edit, index, said) => {
    const only = put('steps', [smallPlan().steps[index]]);
    const [fault] = await faults(all(edit, only));
    expect(fault?.closest).toEqual([]);
    expect(fault?.reason).toMatch(/no stack of the catalog passes every check; /);
    expect(fault?.reason.endsWith(said)).toBe(true);
  });
});

describe('a step that holds', () => {
  it('is told where nothing holds against it, and which stack it would have', async () => {
    const [fault, ...more] = await faults(
      all(
        held,
        keep('catalog.sockets', 1),
        keep('catalog.extensions', 1),
        keep('catalog.drivers', 0),
        put('steps', [{ ...tighten }]),
        (plan) => {
          put('steps[0].hold', { fastener: 'F1' })(plan);
        },
      ),
    );
    expect(more).toEqual([]);
    expect(fault).toMatchObject({ step: 'tighten', closest: [{ stack: ['TT-2', 'X-3', 'S-9/16'] }] });
    expect(fault?.reason).toMatch(/nothing in the catalog holds against it; the nearest has hold 0 stacks/);
  });

  it('is told both where it has neither stack nor hold', async () => {
    const neither = all(short, put('steps', [{ ...tighten, hold: { fastener: 'F1', access: { depth: '3 in' } } }]));
    const [fault, ...more] = await faults(neither);
    expect(more).toEqual([]);
    expect(fault?.reason).toMatch(/no stack of the catalog passes every check; the nearest has reach/);
    expect(fault?.closest.map(({ stack, fails }) => [stack[0], fails[0]?.check])).toEqual([
      ['TT-2', 'reach'],
      ['R-38', 'hold'],
    ]);
  });

  it('is told which pieces both need', async () => {
    const one = all(held, keep('catalog.sockets', 1), put('steps[0].access', { depth: '1 in' }));
    expect(await reasons(one)).toEqual([
      `step tighten ${head}: its stack and its hold need the same pieces at once; the nearest has stock 1 piece of S-9/16 on hand, needs 2 pieces at once`,
    ]);
  });

  it('is not told so where it has a stack for which there is no hold', async () => {
    const said = await reasons(all(held, put('steps[1].hold.access.depth', '50 in'), keep('steps', 2)));
    expect(said).toHaveLength(1);
    expect(said[0]).toMatch(/nothing in the catalog holds against it/);
    const stackless = all(held, put('steps[1].access.depth', '50 in'));
    expect((await reasons(stackless)).filter((reason) => /same pieces/.test(reason))).toEqual([]);
  });
});

describe('a piece that no bag takes', () => {
  const bags = (...sizes: string[]) => {
    const list = sizes.map((sizeMax, n) => ({ id: `B${n}`, sizeMax }));
    return all(
      put('catalog.bags', list),
      put(
        'outings[0].bags',
        list.map(({ id }) => id),
      ),
    );
  };

  it('is held against the longest thing that any of the bags takes', async () => {
    for (const sizes of [
      ['4 in', '7 in', '5 in'],
      ['7 in', '4 in'],
    ]) {
      const [fault] = await faults(all(bags(...sizes), put('catalog.carryGear[0].size', '8 in')));
      expect(fault?.reason).toBe('outing O1: no bag takes C-1');
      expect(fault?.closest).toEqual([
        { stack: [], fails: [{ check: 'bag', have: 'room for 177.8 mm', need: '203.2 mm for C-1' }] },
      ]);
    }
  });

  it('is none of any length where the bag has no limit of length', async () => {
    expect(await reasons(put('catalog.drivers[0].size', '90 in'))).toEqual([]);
  });

  it('leaves a step without a bag: at most three of its stacks are shown, with the piece alone', async () => {
    const many = Array.from({ length: 5 }, (_, n) => ({ ...smallPlan().catalog.sockets[0], id: `S${n}` }));
    const long = all(
      bags('4 in'),
      put('catalog.sockets', many),
      put('catalog.drivers[0].size', '8 in'),
      keep('steps', 1),
    );
    const [fault, ...more] = await faults(long);
    expect(more).toEqual([]);
    expect(fault?.reason).toBe(
      `step loosen ${head}: no bag of Lead or of nobody takes all of a stack; the nearest has bag room for 101.6 mm, needs 203.2 mm for R-38`,
    );
    expect(fault?.closest.map(({ stack }) => stack.at(-1))).toEqual(['S0', 'S1', 'S2']);
  });
});

describe('gear that is used up', () => {
  const outingsWith = (onHand: number, ...quantities: number[]) =>
    all(
      put('catalog.carryGear[0]', { id: 'C-1', mass: '20 g', onHand, consumed: true }),
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
          gear: quantity > 0 ? [{ id: 'C-1', quantity }] : [],
        })),
      ),
    );

  it('is missed in the first outing that goes beyond it, once', async () => {
    expect(await reasons(outingsWith(3, 2, 0, 2, 1))).toEqual(['outing O2: 4 × C-1 used up by then, 3 on hand']);
    expect(await reasons(outingsWith(3, 1, 0, 2))).toEqual([]);
    expect(await reasons(outingsWith(2, 1, 2))).toEqual(['outing O1: 3 × C-1 used up by then, 2 on hand']);
    expect(await reasons(outingsWith(1, 0, 1))).toEqual([]);
  });

  it('is said of an outing that alone needs too much as stock, not as used up', async () => {
    expect(await reasons(outingsWith(2, 3))).toEqual(['outing O0: 3 × C-1 needed, 2 on hand']);
  });
});

describe('an outing that cannot be packed together', () => {
  it('names one step that cannot be packed even alone, and no other', async () => {
    const light = all(put('catalog.bags[0].massMax', '1 kg'), keep('steps', 2));
    // It tightens, so that six points or twelve is all one, and so is the mass: the ids decide.
    expect((await faults(light))[0]?.closest.map(({ stack }) => stack)).toEqual([['TT-2', 'X-3', 'S-9/16']]);
    expect(await reasons(light)).toEqual([
      `step tighten ${head}: cannot be packed: bag B-1 takes 1 kg, 1.07 kg needed`,
    ]);
  });

  it('names the steps that do not go together, and the gear only where it has to do with it', async () => {
    const items = (most: number) => put('catalog.bags[0].itemsMax', most);
    const extra = put('steps[2].gear[0].quantity', 1);
    // Driver, tool, extension and socket are four; two caps make six.
    expect(await reasons(items(5))).toEqual([
      `outing O1: cannot pack step loosen ${head}, step tighten ${head}, the gear 2 × C-1 together: bag B-1 takes 5 pieces, 6 pieces needed`,
    ]);
    expect(await reasons(all(items(3), extra))).toEqual([
      `outing O1: cannot pack step loosen ${head}, step tighten ${head} together: bag B-1 takes 3 pieces, 4 pieces needed`,
    ]);
    expect(
      await reasons(
        all(
          items(4),
          put('steps[2].gear[0].quantity', 4),
          put('steps', [loosen, smallPlan().steps[2]]),
          put('steps[1].gear[0].quantity', 4),
        ),
      ),
    ).toEqual([
      `outing O1: cannot pack step loosen ${head}, the gear 4 × C-1 together: bag B-1 takes 4 pieces, 7 pieces needed`,
    ]);
  });

  it('counts steps that ask the same as one with others like it', async () => {
    const again = put('steps', [loosen, { ...loosen, id: 'two' }, { ...loosen, id: 'three' }, tighten]);
    expect(await reasons(all(again, put('catalog.bags[0].itemsMax', 3)))).toEqual([
      `outing O1: cannot pack step loosen ${head} and 2 like it, step tighten ${head} together: bag B-1 takes 3 pieces, 4 pieces needed`,
    ]);
  });

  it('says it of volumes in litres and of tether points', async () => {
    const volumes = all(
      ...[
        'sockets[0]',
        'sockets[1]',
        'extensions[0]',
        'extensions[1]',
        'drivers[0]',
        'torqueTools[0]',
        'carryGear[0]',
      ].map((item) => put(`catalog.${item}.volume`, '500 mL')),
    );
    const one = keep('steps', 1);
    expect(await reasons(all(volumes, one, put('catalog.bags[0].volumeMax', '1.2 L')))).toEqual([
      `step loosen ${head}: cannot be packed: bag B-1 takes 1.2 L, 1.5 L needed`,
    ]);
    const tethered = all(one, put('catalog.drivers[0].tethers', 2), put('catalog.bags[0].tetherPoints', 1));
    expect(await reasons(tethered)).toEqual([
      `step loosen ${head}: cannot be packed: bag B-1 takes 1 tether points, 2 tether points needed`,
    ]);
  });
});

describe('gear that a step moves', () => {
  it('lies in the bag where it is taken out of it, and not where it comes home', async () => {
    const moving = (from: string, to: string) => {
      const moves = [{ id: 'C-1', quantity: 3, from, to }];
      const step = { id: 'move', outing: 'O1', role: 'Lead', action: 'use', moves };
      return planBag(planFrom({ ...smallPlan(), places: [{ id: 'foot' }], steps: [step] }), { minimise: 'count' });
    };
    expect((await moving('bag', 'foot')).outings[0]?.items).toEqual([
      { id: 'C-1', quantity: 3, bag: 'B-1', because: ['move'] },
    ]);
    expect((await moving('foot', 'bag')).outings[0]?.items).toEqual([]);
  });
});

describe('a volume that is not given', () => {
  const refusal = async (edit: Edit, minimise: 'mass' | 'volume') => {
    const source = smallPlan();
    edit(source);
    return planBag(planFrom(source), { minimise }).then(
      () => 'nothing refused',
      (error: unknown) => (error instanceof Error ? error.message : ''),
    );
  };

  it('is refused with the reason why it counts, and the first twenty items', async () => {
    const limited = put('catalog.bags[0].volumeMax', '5 L');
    const items = 'R-38, TT-2, X-3, X-6, S-9/16, S-9/16-12, C-1';
    expect(await refusal(() => undefined, 'volume')).toBe(`volume is minimised, but no volume is given for ${items}`);
    expect(await refusal(limited, 'mass')).toBe(`bag B-1 has a volumeMax, but no volume is given for ${items}`);
    const more = (count: number) =>
      append(
        'catalog.carryGear',
        ...Array.from({ length: count }, (_, n) => ({ id: `G${n}`, mass: '1 g', onHand: 1 })),
      );
    expect(await refusal(more(13), 'volume')).toMatch(/G12$/);
    expect(await refusal(more(14), 'volume')).toMatch(/G12 …$/);
  });
});
