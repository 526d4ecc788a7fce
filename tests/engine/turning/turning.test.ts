import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planBag } from '../../../renderer/engine/bag/planBag.ts';
import { stepTurning } from '../../../renderer/engine/stack/stepTurning.ts';
import { leadOfStarts, turnsToRun } from '../../../renderer/engine/thread/index.ts';
import { resetAngleDeg, strokesInSwing, turningSeconds } from '../../../renderer/engine/turning/index.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import { stackParts } from '../../../renderer/engine/stack/stackTask.ts';
import { put } from '../../support/editJson.ts';
import { smallPlan } from '../../support/smallPlan.ts';

describe('strokes in a free swing', () => {
  // turns, swing, step, turned in one stroke, strokes, whole strokes: worked by hand.
  it.each([
    [12, 63, 5, 60, 72, 72],
    [8, 60, 60, 60, 48, 48],
    [8, 59.999_999_999_99, 60, 60, 48, 48],
    [8, 119, 60, 60, 48, 48],
    [1, 90, 30, 90, 4, 4],
    [1, 100, 7.2, 93.6, 360 / 93.6, 4],
    [2.5, 45, 5, 45, 20, 20],
    [0, 45, 5, 45, 0, 0],
  ])('%d turns in a swing of %d° by %d°: %d° a stroke', (turns, swingDeg, stepDeg, strokeDeg, strokes, whole) => {
    const made = strokesInSwing({ turns, swingDeg, stepDeg });
    expect(made?.strokeDeg).toBeCloseTo(strokeDeg, 9);
    expect(made?.strokes).toBeCloseTo(strokes, 9);
    expect(made?.wholeStrokes).toBe(whole);
  });

  it('are impossible where the swing is smaller than one step', () => {
    expect(strokesInSwing({ turns: 1, swingDeg: 59, stepDeg: 60 })).toBeNull();
    expect(strokesInSwing({ turns: 1, swingDeg: 4.999, stepDeg: 5 })).toBeNull();
  });

  it('lose no step of an exact multiple, whatever its double is', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 300 }), fc.integer({ min: 1, max: 90 }), (steps, tenths) => {
        // A tenth has no double of its own: the product and the quotient err on both sides.
        const stepDeg = tenths / 10;
        const made = strokesInSwing({ turns: steps / 360, swingDeg: steps * stepDeg, stepDeg });
        return made !== null && Math.abs(made.strokeDeg - steps * stepDeg) < 1e-9 * steps;
      }),
      { seed: 5, numRuns: 2000 },
    );
  });

  it('add up to the turns asked for with no stroke too many', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 400 }),
        fc.constantFrom(2.5, 3, 5, 5.625, 7.2, 10, 30, 60, 90),
        fc.integer({ min: 1, max: 360 }),
        (quarters, stepDeg, swingDeg) => {
          const made = strokesInSwing({ turns: quarters / 4, swingDeg, stepDeg });
          if (made === null) return swingDeg < stepDeg;
          const askedDeg = quarters * 90;
          const enough = made.wholeStrokes * made.strokeDeg >= askedDeg - 1e-6;
          const fewer = (made.wholeStrokes - 1) * made.strokeDeg < askedDeg - 1e-6;
          return enough && fewer && made.strokeDeg <= swingDeg + 1e-6;
        },
      ),
      { seed: 6, numRuns: 2000 },
    );
  });
});

describe('turns and time', () => {
  it('take the lead of a screw with several starts', () => {
    expect(turnsToRun({ lengthMm: 12, leadMm: leadOfStarts({ pitchMm: 1.5, starts: 2 }) })).toBe(4);
  });

  it('assume no pace', () => {
    expect(turningSeconds({ count: 72, secondsEach: null })).toBeNull();
    expect(turningSeconds({ count: 72, secondsEach: 1.5 })).toBe(108);
  });

  it.each([
    ['hex6', 60],
    ['hexKey', 60],
    ['hexalobular', 60],
    ['hex12', 30],
    ['square', 90],
  ] as const)('set a %s without a ratchet again every %d°', (opening, deg) => {
    expect(resetAngleDeg(opening)).toBe(deg);
  });
});

describe('a step of a plan', () => {
  const turningIn = (thread: string, run: string) => {
    const given = smallPlan();
    put('catalog.fasteners[0].threadRun', run)(given);
    put('catalog.fasteners[0].thread', thread)(given);
    const plan = planFrom(given);
    const step = plan.steps.find(({ fastener }) => fastener?.thread === thread);
    const tool = [...plan.tools.keys()][0] ?? '';
    const socket = [...plan.sockets.keys()][0] ?? '';
    const parts = stackParts(plan, [tool, socket]);
    if (step === undefined || parts === null) throw new Error('the plan has changed');
    return stepTurning(step, parts);
  };

  it('counts the turns of a length to run', () => {
    expect(turningIn('M10', '12 mm').turns).toBeCloseTo(8, 12);
  });

  it('has none where the plan gives no length to run', () => {
    const plan = planFrom(smallPlan());
    const [step] = plan.steps;
    const [tool] = plan.tools.values();
    const [socket] = plan.sockets.values();
    if (step === undefined || tool === undefined || socket === undefined) throw new Error('the plan has changed');
    const turning = stepTurning(
      { ...step, fastener: step.fastener && { ...step.fastener, threadRunMm: null } },
      { tool, socket },
    );
    expect(turning).toEqual({ turns: null, strokes: null });
  });

  it('is said in the answer of a bag where there is a length to run, and only there', async () => {
    const given = smallPlan();
    const silent = await planBag(planFrom(given), { minimise: 'mass' });
    expect(silent.outings.flatMap(({ steps }) => steps.flatMap((step) => Object.keys(step)))).not.toContain('turns');
    const loosen = given.steps.findIndex(({ action }) => action === 'loosen');
    put('catalog.fasteners[0].threadRun', '0.5 in')(given);
    put(`steps[${loosen}].access.swingDeg`, 61)(given);
    const { outings } = await planBag(planFrom(given), { minimise: 'mass' });
    // 3/8-24: half an inch is 12 turns; the ratchet of 5° takes 60° of 61°.
    const said = outings.flatMap(({ steps }) => steps).find(({ id }) => id === given.steps[loosen]?.id);
    expect(said?.turns).toBeCloseTo(12, 9);
    expect(said?.strokes).toBe(72);
  });
});
