import { describe, expect, it } from 'vitest';
import type { CheckName } from '../../../shared-types/bag.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import { judgeStack, judgeStep } from '../../../renderer/engine/stack/judgeStep.ts';
import type { SmallPlan } from '../../support/smallPlan.ts';
import { smallPlan } from '../../support/smallPlan.ts';

type Change = (plan: SmallPlan & { steps: Record<string, unknown>[] }) => void;

function judged(change: Change, step: string) {
  const source = smallPlan() as SmallPlan & { steps: Record<string, unknown>[] };
  change(source);
  const plan = planFrom(source);
  const found = plan.steps.find((s) => s.id === step);
  if (!found) throw new Error(`no step ${step}`);
  return { plan, step: found, judgement: judgeStep(plan, found) };
}

const stepOf = (plan: Parameters<Change>[0], id: string) =>
  plan.steps.find((step) => step['id'] === id) as Record<string, any>;
const socket = (plan: SmallPlan, index = 0) => plan.catalog.sockets[index] as Record<string, any>;
const extension = (plan: SmallPlan, index = 0) => plan.catalog.extensions[index] as Record<string, any>;

/** Leaves one socket and one extension, so that one rule alone decides. */
const alone: Change = (plan) => {
  plan.catalog.sockets.splice(1);
  plan.catalog.extensions.splice(1);
};

interface Case {
  rule: string;
  check: CheckName;
  step: 'loosen' | 'tighten';
  /** Exactly at the limit: still reached. */
  at: Change;
  /** Beyond it: not reached. */
  beyond: Change;
}

const cases: Case[] = [
  {
    rule: '1: squares that meet are equal, and 10 mm is 3/8 in',
    check: 'drive',
    step: 'loosen',
    at: (plan) => (socket(plan)['drive'] = '10 mm'),
    beyond: (plan) => (socket(plan)['drive'] = '1/2 in'),
  },
  {
    rule: '2: the opening has the head’s nominal size within 0.01 mm',
    check: 'opening',
    step: 'loosen',
    at: (plan) => (socket(plan)['opening'] = { form: 'hex6', size: '14.2975 mm' }),
    beyond: (plan) => (socket(plan)['opening'] = { form: 'hex6', size: '14.298 mm' }),
  },
  {
    rule: '3: the stack reaches the head',
    check: 'reach',
    step: 'loosen',
    at: (plan) => (stepOf(plan, 'loosen')['access'].depth = '4.25 in'),
    beyond: (plan) => (stepOf(plan, 'loosen')['access'].depth = '4.2501 in'),
  },
  {
    rule: '4: what begins inside the hole passes it',
    check: 'clearance',
    step: 'loosen',
    at: (plan) => (stepOf(plan, 'loosen')['access'].clearDiameter = '0.8 in'),
    beyond: (plan) => (stepOf(plan, 'loosen')['access'].clearDiameter = '0.799 in'),
  },
  {
    rule: '4: an extension that begins at the mouth stays outside',
    check: 'clearance',
    step: 'loosen',
    at: (plan) => {
      Object.assign(stepOf(plan, 'loosen')['access'], {
        depth: '1.25 in',
        clearDiameter: '0.8 in',
        handleRadius: '1 ft',
      });
      extension(plan)['outsideDiameter'] = '2 in';
    },
    beyond: (plan) => {
      stepOf(plan, 'loosen')['access'].clearDiameter = '0.8 in';
      extension(plan)['outsideDiameter'] = '0.801 in';
    },
  },
  {
    rule: '5: every part bears the demand',
    check: 'strength',
    step: 'loosen',
    at: (plan) => (stepOf(plan, 'loosen')['demand'] = '75 lbf·ft'),
    beyond: (plan) => (stepOf(plan, 'loosen')['demand'] = '75.001 lbf·ft'),
  },
  {
    rule: '5: running torque to be added is borne too',
    check: 'strength',
    step: 'tighten',
    at: (plan) => {
      Object.assign(stepOf(plan, 'tighten'), {
        runningIncluded: false,
        running: { min: '0.5 lbf·ft', max: '1 lbf·ft' },
      });
      socket(plan)['ratedTorque'] = '36 lbf·ft';
    },
    beyond: (plan) => {
      Object.assign(stepOf(plan, 'tighten'), {
        runningIncluded: false,
        running: { min: '0.5 lbf·ft', max: '1.1 lbf·ft' },
      });
      socket(plan)['ratedTorque'] = '36 lbf·ft';
    },
  },
  {
    rule: '6: an applied band lies inside the callout',
    check: 'accuracy',
    step: 'tighten',
    at: (plan) => (stepOf(plan, 'tighten')['callout'] = { min: '31.2 lbf·ft', max: '33.8 lbf·ft' }),
    beyond: (plan) => (stepOf(plan, 'tighten')['callout'] = { min: '31.3 lbf·ft', max: '33.8 lbf·ft' }),
  },
  {
    rule: '6: the least share of the range is kept',
    check: 'accuracy',
    step: 'tighten',
    at: (plan) => Object.assign(plan, { rangeShareMin: 0.43 }),
    beyond: (plan) => Object.assign(plan, { rangeShareMin: 0.6 }),
  },
  {
    rule: '7: one universal joint, and only to loosen',
    check: 'universal',
    step: 'tighten',
    at: () => undefined,
    beyond: (plan) => (extension(plan)['kind'] = 'universal'),
  },
  {
    rule: '13: the tool’s step fits the swing',
    check: 'swing',
    step: 'tighten',
    at: () => undefined,
    beyond: (plan) => (stepOf(plan, 'tighten')['access'].swingDeg = 59),
  },
  {
    rule: '13: the lever fits the room',
    check: 'swing',
    step: 'loosen',
    at: (plan) => (stepOf(plan, 'loosen')['access'].handleRadius = '8 in'),
    beyond: (plan) => (stepOf(plan, 'loosen')['access'].handleRadius = '7.99 in'),
  },
  {
    rule: '14: the socket takes what stands proud',
    check: 'protrusion',
    step: 'loosen',
    at: (plan) => (stepOf(plan, 'loosen')['access'].protrusion = '0.6 in'),
    beyond: (plan) => (stepOf(plan, 'loosen')['access'].protrusion = '0.61 in'),
  },
  {
    rule: '14: a socket without an inner depth takes nothing',
    check: 'protrusion',
    step: 'loosen',
    at: () => undefined,
    beyond: (plan) => {
      stepOf(plan, 'loosen')['access'].protrusion = '0.1 in';
      delete socket(plan)['innerDepth'];
    },
  },
  {
    rule: '8: a piece that is not on hand serves nobody',
    check: 'stock',
    step: 'loosen',
    at: () => undefined,
    beyond: (plan) => (socket(plan)['onHand'] = 0),
  },
];

describe('each rule of a stack decides at its limit', () => {
  for (const { rule, check, step, at, beyond } of cases) {
    it(`rule ${rule}`, () => {
      const within = judged((plan) => (alone(plan), at(plan)), step);
      expect(within.judgement.state).toBe('reached');
      expect(within.judgement.best?.checks.every((c) => c.passes)).toBe(true);
      const past = judged((plan) => (alone(plan), beyond(plan)), step);
      expect(past.judgement.state).toBe('not-reached');
      const single = past.judgement.closest.filter(({ fails }) => fails.length === 1);
      expect(single.map(({ fails }) => fails[0]?.check)).toContain(check);
    });
  }

  it('names the closest fit with what it has and what is needed', () => {
    const { judgement } = judged(
      (plan) => (alone(plan), (stepOf(plan, 'loosen')['access'].depth = '6.44 in')),
      'loosen',
    );
    expect(judgement.closest[0]).toEqual({
      stack: ['R-38', 'X-3', 'S-9/16'],
      fails: [{ check: 'reach', have: '4.25 in', need: '6.44 in' }],
    });
  });

  it('puts the smallest shortfall of a check first', () => {
    const { judgement } = judged((plan) => {
      plan.catalog.sockets.splice(1);
      plan.catalog.extensions.forEach((e) => (e.onHand = 1));
      stepOf(plan, 'loosen')['access'].depth = '20 in';
    }, 'loosen');
    expect(judgement.closest[0]?.fails[0]).toMatchObject({ check: 'reach', have: '10.25 in', need: '20 in' });
  });

  it('keeps two of one extension apart from one', () => {
    const twice: Change = (plan) => {
      alone(plan);
      stepOf(plan, 'loosen')['access'].depth = '7 in';
    };
    expect(judged(twice, 'loosen').judgement.state).toBe('not-reached');
    const two = judged((plan) => (twice(plan), (extension(plan)['onHand'] = 2)), 'loosen');
    expect(two.judgement.best?.stack).toEqual(['R-38', 'X-3', 'X-3', 'S-9/16']);
  });

  it('takes six points before twelve where the step loosens and the masses are equal', () => {
    const { judgement } = judged((plan) => plan.catalog.sockets.reverse(), 'loosen');
    expect(judgement.best?.stack.at(-1)).toBe('S-9/16');
  });

  it('tightens with no driver and loosens with no torque tool that may not', () => {
    const noTool = judged((plan) => plan.catalog.torqueTools.splice(0), 'tighten');
    expect(noTool.judgement).toMatchObject({ state: 'not-reached', closest: [] });
    expect(judged((plan) => plan.catalog.drivers.splice(0), 'loosen').judgement.state).toBe('not-reached');
    const loosening = judged((plan) => {
      plan.catalog.drivers.splice(0);
      const [tool] = plan.catalog.torqueTools;
      if (tool) tool.loosens = true;
    }, 'loosen');
    expect(loosening.judgement.best?.stack[0]).toBe('TT-2');
  });

  it('counts turns from the length to run and strokes from the swing', () => {
    // 3/8-24: lead 25.4/24 mm, so 1/2 in is 12 turns; a 5° ratchet in 63° takes 60° a stroke, 72 strokes.
    const { judgement } = judged((plan) => {
      Object.assign(plan.catalog.fasteners[0] ?? {}, { threadRun: '1/2 in' });
      stepOf(plan, 'loosen')['access'].swingDeg = 63;
    }, 'loosen');
    expect(judgement.turns).toBeCloseTo(12, 9);
    expect(judgement.strokes).toBeCloseTo(72, 9);
  });

  it('judges any stack one names, and refuses one that is none', () => {
    const { plan, step } = judged(() => undefined, 'tighten');
    const long = judgeStack(plan, step, ['TT-2', 'X-6', 'S-9/16']);
    expect(long.checks.find((c) => c.check === 'reach')).toMatchObject({
      passes: true,
      have: '7.25 in',
      margin: '5.25 in over',
    });
    expect(() => judgeStack(plan, step, ['TT-2', 'nothing'])).toThrow(/no stack of this catalog/);
  });
});
