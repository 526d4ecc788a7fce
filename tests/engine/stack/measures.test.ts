import { describe, expect, it } from 'vitest';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import type { ResolvedPlan, ResolvedStep } from '../../../renderer/engine/plan/resolved.ts';
import { checkStack } from '../../../renderer/engine/stack/checkStack.ts';
import { judgeStep } from '../../../renderer/engine/stack/judgeStep.ts';
import { stackParts, stackTask } from '../../../renderer/engine/stack/stackTask.ts';
import type { Edit } from '../../support/editJson.ts';
import { all, append, keep, put, remove } from '../../support/editJson.ts';
import { smallPlan } from '../../support/smallPlan.ts';

const lbfFtNm = 1.3558179483314003;
const unchanged: Edit = () => undefined;

function planWith(edit: Edit): { plan: ResolvedPlan; step: (index: number) => ResolvedStep } {
  const source = smallPlan();
  edit(source);
  const plan = planFrom(source);
  return { plan, step: (index) => plan.steps[index] as ResolvedStep };
}

/** What one check says of one stack: loosening with the first step, tightening with the second. */
function said(check: string, edit: Edit, index: 0 | 1, stack: readonly string[]) {
  const { plan, step } = planWith(edit);
  const task = stackTask(plan, step(index));
  const parts = stackParts(plan, stack);
  if (task === null || parts === null) throw new Error('no such stack');
  return checkStack(task, parts).find((found) => found.check === check);
}

const judgement = (edit: Edit, index: number) => {
  const { plan, step } = planWith(edit);
  return judgeStep(plan, step(index));
};

const ratchet = ['R-38', 'X-3', 'S-9/16'];
const torqued = ['TT-2', 'X-3', 'S-9/16'];

describe('by how much a stack fails', () => {
  const socket = (edit: object) => put('catalog.sockets[0]', { ...smallPlan().catalog.sockets[0], ...edit });

  it('in squares: the sides that do not meet, added up', () => {
    const half = put('catalog.sockets[0].drive', '1/2 in');
    expect(said('drive', half, 0, ratchet)).toMatchObject({
      shortfall: expect.closeTo(12.7 - 9.525, 9) as number,
      have: '3/8 in male',
      need: '1/2 in male',
      margin: '1 of 2 joints do not meet',
    });
    const twice = all(put('catalog.extensions[0].driveIn', '1/4 in'), put('catalog.extensions[0].driveOut', '1/2 in'));
    expect(said('drive', twice, 0, ratchet)).toMatchObject({
      shortfall: expect.closeTo(9.525 - 6.35 + (12.7 - 9.525), 9) as number,
      margin: '2 of 2 joints do not meet',
    });
  });

  it('in the opening: how far the size is off, and far more for another form', () => {
    for (const size of ['5/8 in', '1/2 in']) {
      const off = said('opening', socket({ opening: { form: 'hex6', size } }), 0, ratchet)?.shortfall;
      expect(off).toBeCloseTo(25.4 / 16, 9);
    }
    const form = said('opening', socket({ opening: { form: 'hexKey', size: '9/16 in' } }), 0, ratchet)?.shortfall ?? 0;
    const both = said('opening', socket({ opening: { form: 'hexKey', size: '5/8 in' } }), 0, ratchet)?.shortfall ?? 0;
    expect(form).toBeGreaterThan(300);
    expect(both - form).toBeCloseTo(25.4 / 16, 9);
    expect(said('opening', socket({ opening: { form: 'hexalobular', size: 'T30' } }), 0, ratchet)?.shortfall).toBe(
      form,
    );
  });

  it('in clearance: a wide part counts where it begins inside the hole, and nowhere else', () => {
    const wide = put('catalog.extensions[1].outsideDiameter', '1.5 in');
    expect(said('clearance', wide, 0, ['R-38', 'X-6', 'X-3', 'S-9/16'])).toMatchObject({
      passes: true,
      have: '⌀ 0.8 in',
      margin: '0.1 in a side',
    });
    expect(said('clearance', wide, 0, ['R-38', 'X-3', 'X-6', 'S-9/16'])).toMatchObject({
      passes: false,
      margin: '0.5 in too wide',
      shortfall: expect.closeTo(12.7, 9) as number,
    });
    const tight = put('steps[0].access.clearDiameter', '0.8 in');
    expect(said('clearance', tight, 0, ratchet)).toMatchObject({ passes: true, margin: '0 in a side' });
  });

  it.each([
    ['9 in', true, '1 in over'],
    ['8 in', true, '0 in over'],
    ['7 in', false, '1 in too long'],
  ])('in room for the handle: a lever of 8 in where there are %s', (handleRadius, passes, margin) => {
    expect(said('swing', put('steps[0].access.handleRadius', handleRadius), 0, ratchet)).toMatchObject({
      passes,
      margin,
      have: 'lever 8 in',
    });
  });

  it('in universal joints: one more than there may be (rule 7)', () => {
    const joint = put('catalog.extensions[0].kind', 'universal');
    const one = { have: '1 universal joint', shortfall: 0, need: 'at most 1', margin: 'allowed', passes: true };
    expect(said('universal', joint, 0, ratchet)).toMatchObject(one);
    expect(said('universal', joint, 1, torqued)).toMatchObject({
      passes: false,
      shortfall: 1,
      need: 'none when tightening',
      margin: 'not allowed',
    });
    const two = all(joint, put('catalog.extensions[1].kind', 'universal'));
    expect(said('universal', two, 0, ['R-38', 'X-6', 'X-3', 'S-9/16'])).toMatchObject({
      passes: false,
      shortfall: 1,
      have: '2 universal joints',
    });
    expect(said('universal', unchanged, 0, ratchet)).toBeUndefined();
  });

  it('in protrusion: all of it where the socket gives no inner depth (rule 14)', () => {
    const unknown = all(remove('catalog.sockets[0].innerDepth'), put('steps[0].access.protrusion', '10 mm'));
    expect(said('protrusion', unknown, 0, ratchet)).toMatchObject({ passes: false, shortfall: 10 });
  });

  it('in stock: the pieces that are not there', () => {
    const twice = ['R-38', 'X-3', 'X-3', 'S-9/16'];
    expect(said('stock', unchanged, 0, twice)).toMatchObject({ shortfall: 1, margin: 'short by 1 piece' });
    expect(said('stock', put('catalog.extensions[0].onHand', 0), 0, twice)).toMatchObject({ shortfall: 2 });
  });
});

describe('how a setting lies in the callout (rule 6)', () => {
  const callout = (min: string, max: string) => put('steps[1].callout', { min: `${min} lbf·ft`, max: `${max} lbf·ft` });

  // 32.5 lbf·ft at 4 % of reading is 31.2 to 33.8 lbf·ft.
  it.each([
    ['30', '35', '1.2 lbf·ft inside', 0],
    ['31', '34', '0.2 lbf·ft inside', 0],
    ['31.2', '33.8', '0 lbf·ft inside', 0],
    ['32', '33', '0.8 lbf·ft outside', 0.8 * lbfFtNm],
  ])('%s to %s lbf·ft: %s', (min, max, margin, shortfall) => {
    expect(said('accuracy', callout(min, max), 1, torqued)).toMatchObject({
      passes: shortfall === 0,
      margin,
      have: '31.2–33.8 lbf·ft applied at 32.5 lbf·ft',
      need: `inside ${min}–${max} lbf·ft`,
      shortfall: expect.closeTo(shortfall, 9) as number,
    });
  });

  it('is shown with digits enough to tell the ends apart, and with no more', () => {
    expect(said('accuracy', callout('31.20001', '34'), 1, torqued)).toMatchObject({
      passes: false,
      need: 'inside 31.20001–34 lbf·ft',
    });
    expect(said('accuracy', callout('31', '33.799999'), 1, torqued)).toMatchObject({
      passes: false,
      need: 'inside 31–33.799999 lbf·ft',
    });
  });

  it('a tool with no setting in its range falls short by the whole callout', () => {
    const none = all(remove('catalog.torqueTools[0].increment'), put('catalog.torqueTools[0].settings', ['80 lbf·ft']));
    expect(said('accuracy', none, 1, torqued)).toMatchObject({
      passes: false,
      have: 'no setting in its range',
      shortfall: expect.closeTo(35 * lbfFtNm, 9) as number,
    });
    expect(said('accuracy', unchanged, 0, ratchet)).toBeUndefined();
  });
});

describe('the order of stacks', () => {
  const stacks = (edit: Edit, index: number) => {
    const { best, others } = judgement(edit, index);
    return [best, ...others].map((judged) => judged?.stack.join(' '));
  };

  it('is by mass, the extensions’ included', () => {
    expect(judgement(unchanged, 0).best?.massKg).toBeCloseTo(0.3 + 0.11 + 0.06, 12);
    expect(stacks(keep('catalog.sockets', 1), 0)).toEqual(['R-38 X-3 S-9/16', 'R-38 X-6 S-9/16']);
    const heavy = all(keep('catalog.sockets', 1), put('catalog.extensions[0].mass', '300 g'));
    expect(stacks(heavy, 0)).toEqual(['R-38 X-6 S-9/16', 'R-38 X-3 S-9/16']);
  });

  it('of equal masses, fewer parts first', () => {
    const { sockets } = smallPlan().catalog;
    const deep = { ...sockets[0], id: 'Z-deep', length: '5 in', mass: '170 g' };
    const edit = all(put('catalog.sockets', [sockets[0], deep]), keep('catalog.extensions', 1));
    expect(stacks(edit, 0)).toEqual(['R-38 Z-deep', 'R-38 X-3 S-9/16']);
  });

  it('then six points before twelve where the step loosens, and by ids where it tightens', () => {
    const twelve = all(put('catalog.sockets[1].id', 'A-12'), keep('catalog.extensions', 1));
    expect(stacks(twelve, 0)).toEqual(['R-38 X-3 S-9/16', 'R-38 X-3 A-12']);
    expect(stacks(twelve, 1)).toEqual(['TT-2 X-3 A-12', 'TT-2 X-3 S-9/16']);
  });

  it('shows five beside the best, and counts all', () => {
    const many = all(
      keep('catalog.extensions', 1),
      ...Array.from({ length: 7 }, (_, n) =>
        append('catalog.sockets', { ...smallPlan().catalog.sockets[0], id: `S-${n}`, mass: `${70 + n} g` }),
      ),
    );
    const { others, stackCount, best } = judgement(many, 0);
    expect(stackCount).toBe(9);
    expect(others).toHaveLength(5);
    expect(others.map(({ stack }) => stack)).not.toContainEqual(best?.stack);
  });
});

describe('what comes nearest where nothing serves', () => {
  it('is two stacks for a check, the smallest shortfall first', () => {
    const lengths = ['1 in', '4 in', '2 in', '3 in'];
    const { extensions } = smallPlan().catalog;
    const short = lengths.map((length) => ({ ...extensions[0], id: `X-${length[0]}`, length, onHand: 1 }));
    const edit = all(
      keep('catalog.sockets', 1),
      put('catalog.extensions', short),
      put('steps[0].access', { depth: '60 in' }),
    );
    const { closest } = judgement(edit, 0);
    const reach = closest.filter(({ fails }) => fails.every(({ check }) => check === 'reach'));
    expect(reach.map(({ fails }) => fails[0]?.have)).toEqual(['10.25 in', '9.25 in'].slice(0, reach.length));
    expect(reach).toHaveLength(2);
  });

  it('is the stack with the fewest failures where each fails several checks', () => {
    const edit = all(
      keep('catalog.sockets', 1),
      put('steps[0].access.protrusion', '2 in'),
      put('steps[0].access.depth', '40 in'),
      put('catalog.extensions', [
        smallPlan().catalog.extensions[0],
        { ...smallPlan().catalog.extensions[1], ratedTorque: '5 lbf·ft' },
      ]),
    );
    const { closest } = judgement(edit, 0);
    expect(closest[0]?.fails.map(({ check }) => check)).toEqual(['reach', 'protrusion']);
    expect(closest.length).toBeLessThanOrEqual(2);
  });

  it('of a hold that no driver can do is said of the step’s own stack, and of nothing where it has none', () => {
    const held = all(keep('catalog.drivers', 0), put('steps[1].hold', { fastener: 'F1' }));
    const fails = [{ check: 'hold', have: '0 stacks of a driver that hold against it', need: '1 stack' }];
    expect(judgement(held, 1)).toMatchObject({ state: 'not-reached', closest: [{ stack: torqued, fails }] });
    expect(judgement(all(held, keep('catalog.sockets', 0)), 1).closest).toEqual([]);
  });

  it('of a stack and a hold that want the same pieces is at most three pairs, fewest missing first', () => {
    const none = put('catalog.sockets[1].onHand', 1);
    const held = all(
      none,
      keep('catalog.sockets', 1),
      put('steps[1].hold', { fastener: 'F1', access: { depth: '2 in' } }),
    );
    const { closest } = judgement(held, 1);
    expect(closest.map(({ fails }) => fails.length)).toEqual([1, 1, 2]);
    expect(closest[0]?.fails).toEqual([
      { check: 'stock', have: '1 piece of S-9/16 on hand', need: '2 pieces at once' },
    ]);
  });

  it('a step by hand needs none, and a stack is judged with its hold', () => {
    expect(judgement(unchanged, 2)).toMatchObject({ state: 'by-hand', best: null, stackCount: 0 });
    expect(judgement(unchanged, 1)).toMatchObject({ hold: null });
    const held = all(put('catalog.sockets[0].onHand', 2), put('steps[1].hold', { fastener: 'F1' }));
    expect(judgement(held, 1)).toMatchObject({
      best: { setting: { value: 32.5, unit: 'lbf·ft' } },
      hold: { stack: ['R-38', 'S-9/16'], setting: null, applied: null },
    });
    expect(
      judgement(put('catalog.torqueTools[0].loosens', true), 0).others.every(({ setting }) => setting === null),
    ).toBe(true);
  });
});
