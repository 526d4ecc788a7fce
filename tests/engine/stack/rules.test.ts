import { describe, expect, it } from 'vitest';
import type { CheckName } from '../../../shared-types/bag.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import { judgeStack, judgeStep } from '../../../renderer/engine/stack/judgeStep.ts';
import type { Edit } from '../../support/editJson.ts';
import { all, keep, put, remove } from '../../support/editJson.ts';
import { smallPlan } from '../../support/smallPlan.ts';

function judged(edit: Edit, step: string) {
  const source = smallPlan();
  edit(source);
  const plan = planFrom(source);
  const found = plan.steps.find((s) => s.id === step);
  if (!found) throw new Error(`no step ${step}`);
  return { plan, step: found, judgement: judgeStep(plan, found) };
}

/** Running torque on top of a callout of at most 35 lbf·ft, through a socket rated 36 lbf·ft. */
const addsRunning = (max: string): Edit =>
  all(
    put('steps[1].runningIncluded', false),
    put('steps[1].running', { min: '0.5 lbf·ft', max }),
    put('catalog.sockets[0].ratedTorque', '36 lbf·ft'),
  );

const unchanged: Edit = () => undefined;

/** Leaves one socket and one extension, so that one rule alone decides. */
const alone = all(keep('catalog.sockets', 1), keep('catalog.extensions', 1));

interface Case {
  rule: string;
  check: CheckName;
  step: 'loosen' | 'tighten';
  /** Exactly at the limit: still reached. */
  at: Edit;
  /** Beyond it: not reached. */
  beyond: Edit;
}

const cases: Case[] = [
  {
    rule: '1: squares that meet are equal, and 10 mm is 3/8 in',
    check: 'drive',
    step: 'loosen',
    at: put('catalog.sockets[0].drive', '10 mm'),
    beyond: put('catalog.sockets[0].drive', '1/2 in'),
  },
  {
    rule: '2: the opening has the head’s nominal size within 0.01 mm',
    check: 'opening',
    step: 'loosen',
    at: put('catalog.sockets[0].opening', { form: 'hex6', size: '14.2975 mm' }),
    beyond: put('catalog.sockets[0].opening', { form: 'hex6', size: '14.298 mm' }),
  },
  {
    rule: '3: the stack reaches the head',
    check: 'reach',
    step: 'loosen',
    at: put('steps[0].access.depth', '4.25 in'),
    beyond: put('steps[0].access.depth', '4.2501 in'),
  },
  {
    rule: '4: what begins inside the hole passes it',
    check: 'clearance',
    step: 'loosen',
    at: put('steps[0].access.clearDiameter', '0.8 in'),
    beyond: put('steps[0].access.clearDiameter', '0.799 in'),
  },
  {
    rule: '4: an extension that begins at the mouth stays outside',
    check: 'clearance',
    step: 'loosen',
    at: all(
      put('steps[0].access', { depth: '1.25 in', clearDiameter: '0.8 in', handleRadius: '1 ft' }),
      put('catalog.extensions[0].outsideDiameter', '2 in'),
    ),
    beyond: all(
      put('steps[0].access.clearDiameter', '0.8 in'),
      put('catalog.extensions[0].outsideDiameter', '0.801 in'),
    ),
  },
  {
    rule: '5: every part bears the demand',
    check: 'strength',
    step: 'loosen',
    at: put('steps[0].demand', '75 lbf·ft'),
    beyond: put('steps[0].demand', '75.001 lbf·ft'),
  },
  {
    rule: '5: running torque to be added is borne too',
    check: 'strength',
    step: 'tighten',
    at: addsRunning('1 lbf·ft'),
    beyond: addsRunning('1.1 lbf·ft'),
  },
  {
    rule: '6: an applied band lies inside the callout',
    check: 'accuracy',
    step: 'tighten',
    at: put('steps[1].callout', { min: '31.2 lbf·ft', max: '33.8 lbf·ft' }),
    beyond: put('steps[1].callout', { min: '31.3 lbf·ft', max: '33.8 lbf·ft' }),
  },
  {
    rule: '6: the least share of the range is kept',
    check: 'accuracy',
    step: 'tighten',
    at: put('rangeShareMin', 0.43),
    beyond: put('rangeShareMin', 0.6),
  },
  {
    rule: '7: one universal joint, and only to loosen',
    check: 'universal',
    step: 'tighten',
    at: unchanged,
    beyond: put('catalog.extensions[0].kind', 'universal'),
  },
  {
    rule: '13: the tool’s step fits the swing',
    check: 'swing',
    step: 'tighten',
    at: unchanged,
    beyond: put('steps[1].access.swingDeg', 59),
  },
  {
    rule: '13: the lever fits the room',
    check: 'swing',
    step: 'loosen',
    at: put('steps[0].access.handleRadius', '8 in'),
    beyond: put('steps[0].access.handleRadius', '7.99 in'),
  },
  {
    rule: '14: the socket takes what stands proud',
    check: 'protrusion',
    step: 'loosen',
    at: put('steps[0].access.protrusion', '0.6 in'),
    beyond: put('steps[0].access.protrusion', '0.61 in'),
  },
  {
    rule: '14: a socket without an inner depth takes nothing',
    check: 'protrusion',
    step: 'loosen',
    at: unchanged,
    beyond: all(put('steps[0].access.protrusion', '0.1 in'), remove('catalog.sockets[0].innerDepth')),
  },
  {
    rule: '8: a piece that is not on hand serves nobody',
    check: 'stock',
    step: 'loosen',
    at: unchanged,
    beyond: put('catalog.sockets[0].onHand', 0),
  },
];

describe('each rule of a stack decides at its limit', () => {
  for (const { rule, check, step, at, beyond } of cases) {
    it(`rule ${rule}`, () => {
      const within = judged(all(alone, at), step);
      expect(within.judgement.state).toBe('reached');
      expect(within.judgement.best?.checks.every((c) => c.passes)).toBe(true);
      const past = judged(all(alone, beyond), step);
      expect(past.judgement.state).toBe('not-reached');
      const single = past.judgement.closest.filter(({ fails }) => fails.length === 1);
      expect(single.map(({ fails }) => fails[0]?.check)).toContain(check);
    });
  }

  it('names the closest fit with what it has and what is needed', () => {
    const { judgement } = judged(all(alone, put('steps[0].access.depth', '6.44 in')), 'loosen');
    expect(judgement.closest[0]).toEqual({
      stack: ['R-38', 'X-3', 'S-9/16'],
      fails: [{ check: 'reach', have: '4.25 in', need: '6.44 in' }],
    });
  });

  it('calls a stack that just reaches neither over nor short', () => {
    // 3 in + 1.25 in against 4.25 in: in millimetres their sums differ in the last bit.
    const { judgement } = judged(all(alone, put('steps[0].access.depth', '4.25 in')), 'loosen');
    expect(judgement.best?.checks.find(({ check }) => check === 'reach')).toMatchObject({
      passes: true,
      margin: '0 in over',
    });
    const nine = all(alone, put('catalog.extensions[0].length', '6.9 in'), put('catalog.sockets[0].length', '2.1 in'));
    const nearly = judged(all(nine, put('steps[0].access.depth', '9 in')), 'loosen');
    expect(nearly.judgement.best?.checks.find(({ check }) => check === 'reach')?.margin).toBe('0 in over');
  });

  it('puts the smallest shortfall of a check first', () => {
    const { judgement } = judged(all(keep('catalog.sockets', 1), put('steps[0].access.depth', '20 in')), 'loosen');
    expect(judgement.closest[0]?.fails[0]).toMatchObject({ check: 'reach', have: '10.25 in', need: '20 in' });
  });

  it('keeps two of one extension apart from one', () => {
    const deep = all(alone, put('steps[0].access.depth', '7 in'));
    expect(judged(deep, 'loosen').judgement.state).toBe('not-reached');
    const two = judged(all(deep, put('catalog.extensions[0].onHand', 2)), 'loosen');
    expect(two.judgement.best?.stack).toEqual(['R-38', 'X-3', 'X-3', 'S-9/16']);
  });

  it('takes six points before twelve where the step loosens and the masses are equal', () => {
    const { judgement } = judged(put('catalog.sockets', smallPlan().catalog.sockets.toReversed()), 'loosen');
    expect(judgement.best?.stack.at(-1)).toBe('S-9/16');
  });

  it('tightens with no driver and loosens with no torque tool that may not', () => {
    const noTool = judged(keep('catalog.torqueTools', 0), 'tighten');
    expect(noTool.judgement).toMatchObject({ state: 'not-reached', closest: [] });
    const noDriver = keep('catalog.drivers', 0);
    expect(judged(noDriver, 'loosen').judgement.state).toBe('not-reached');
    const loosening = judged(all(noDriver, put('catalog.torqueTools[0].loosens', true)), 'loosen');
    expect(loosening.judgement.best?.stack[0]).toBe('TT-2');
  });

  it('counts turns from the length to run and strokes from the swing', () => {
    // 3/8-24: lead 25.4/24 mm, so 1/2 in is 12 turns; a 5° ratchet in 63° takes 60° a stroke, 72 strokes.
    const run = all(put('catalog.fasteners[0].threadRun', '1/2 in'), put('steps[0].access.swingDeg', 63));
    const { judgement } = judged(run, 'loosen');
    expect(judgement.turns).toBeCloseTo(12, 9);
    expect(judgement.strokes).toBeCloseTo(72, 9);
  });

  it('judges any stack one names, and refuses one that is none', () => {
    const { plan, step } = judged(unchanged, 'tighten');
    const long = judgeStack(plan, step, ['TT-2', 'X-6', 'S-9/16']);
    expect(long.checks.find((c) => c.check === 'reach')).toMatchObject({
      passes: true,
      have: '7.25 in',
      margin: '5.25 in over',
    });
    expect(() => judgeStack(plan, step, ['TT-2', 'nothing'])).toThrow(/no stack of this catalog/);
  });
});

describe('a step that holds', () => {
  const held = put('steps[1].hold', { fastener: 'F1' });

  it('is reached with a stack and a hold of pieces that are there together', () => {
    const { judgement } = judged(held, 'tighten');
    const pieces = [...(judgement.best?.stack ?? []), ...(judgement.hold?.stack ?? [])];
    expect(judgement.state).toBe('reached');
    expect(new Set(pieces).size).toBe(pieces.length);
  });

  it('is not reached where both need the one piece there is', () => {
    const { judgement } = judged(all(held, keep('catalog.sockets', 1)), 'tighten');
    expect(judgement).toMatchObject({ state: 'not-reached', best: null, hold: null });
    expect(judgement.closest[0]?.fails).toContainEqual({
      check: 'stock',
      have: '1 piece of S-9/16 on hand',
      need: '2 pieces at once',
    });
  });
});
