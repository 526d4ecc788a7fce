import { describe, expect, it } from 'vitest';
import { outingClock, scheduleOf, type TimedStep } from '../../../renderer/engine/outing/clock.ts';
import { outingMinutes } from '../../../renderer/engine/outing/planProblems.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import { dice as diceOf } from '../../reference/dice.ts';
import { coursePlan, step } from './coursePlan.ts';

const timed = (id: string, role: string, slot: string | null, minutes: number, contingency = false): TimedStep => ({
  id,
  role,
  slot,
  minutes,
  contingency,
});

function clockOf(steps: Parameters<typeof coursePlan>[0]['steps'], outing: Record<string, unknown> = {}) {
  const plan = planFrom(coursePlan({ steps, outing }));
  const [first] = plan.outings;
  if (first === undefined) throw new Error('no outing');
  return { plan, outing: first, clock: outingClock(plan, first) };
}

describe('the course of an outing', () => {
  it('does steps one after another, and those of a slot at once where its first one stands', () => {
    const { spans, endMin } = scheduleOf([
      timed('a', 'Lead', null, 5),
      timed('b', 'Lead', 'x', 4),
      timed('c', 'Second', null, 3),
      timed('d', 'Second', 'x', 6),
      timed('e', 'Lead', 'x', 1),
    ]);
    expect(spans.map(({ step: id, startMin, endMin: to }) => [id, startMin, to])).toEqual([
      ['a', 0, 5],
      ['b', 5, 9],
      ['d', 5, 11],
      ['e', 9, 10],
      ['c', 11, 14],
    ]);
    expect(endMin).toBe(14);
  });

  it('ends when the rule for minutes says, for 300 random outings', () => {
    for (let seed = 1; seed <= 300; seed += 1) {
      const dice = diceOf(seed);
      const steps = Array.from({ length: dice.whole(1, 9) }, (_, index) =>
        step(`s${index}`, dice.pick(['Lead', 'Second']), {
          minutes: dice.whole(0, 20),
          ...(dice.chance(0.5) ? { slot: dice.pick(['x', 'y']) } : {}),
          ...(dice.chance(0.2) ? { contingency: true } : {}),
        }),
      );
      const { plan, outing, clock } = clockOf(steps);
      expect(clock.endMin, `seed ${seed}`).toBe(outingMinutes(plan, outing));
      expect(clock.spans.length + clock.aside.length, `seed ${seed}`).toBe(steps.length);
    }
  });
});

describe('the clock', () => {
  const steps = [
    step('a', 'Lead', { minutes: 20, safeToLeave: true }),
    step('b', 'Lead', { minutes: 25 }),
    step('c', 'Lead', { minutes: 13, safeToLeave: true }),
    step('x', 'Lead', { minutes: 30, contingency: true }),
  ];

  it('turns back after the last step from which the way home still fits', () => {
    const { clock } = clockOf(steps, { minutesMax: 60, turnBack: 10 });
    expect(clock).toMatchObject({ endMin: 58, overMin: 0, aside: ['x'] });
    expect(clock.turnBack).toEqual({ minutes: 10, latestMin: 50, step: 'b', safeStep: 'a', allFits: false });
  });

  it('says what is left at each safe step, and how long the work cannot be left before it', () => {
    const { clock } = clockOf(steps, { minutesMax: 60, turnBack: 10 });
    expect(clock.safe).toEqual([
      { step: 'a', endMin: 20, slackMin: 30, stretchMin: 20 },
      { step: 'c', endMin: 58, slackMin: -8, stretchMin: 38 },
    ]);
  });

  it.each([
    ['where the way home ends to the minute', { minutesMax: 68, turnBack: 10 }, 'c', true],
    ['where it is a minute too long', { minutesMax: 67, turnBack: 10 }, 'b', false],
    ['where nothing can be done before it', { minutesMax: 25, turnBack: 10 }, null, false],
  ])('%s', (_, outing, last, allFits) => {
    expect(clockOf(steps, outing).clock.turnBack).toMatchObject({ step: last, allFits });
  });

  it('does not turn back while another role is in the middle of a step', () => {
    const both = [
      step('a', 'Lead', { minutes: 5 }),
      step('b', 'Lead', { minutes: 10, slot: 'x' }),
      step('c', 'Second', { minutes: 30, slot: 'x' }),
    ];
    expect(clockOf(both, { minutesMax: 30, turnBack: 5 }).clock.turnBack?.step).toBe('a');
    expect(clockOf(both, { minutesMax: 40, turnBack: 5 }).clock.turnBack?.step).toBe('c');
  });

  it('has no turn without a limit or a way home, and counts what is over', () => {
    expect(clockOf(steps, { turnBack: 10 }).clock.turnBack).toBeNull();
    const { clock } = clockOf(steps, { minutesMax: 50 });
    expect(clock).toMatchObject({ turnBack: null, overMin: 8 });
    expect(clock.safe.map(({ slackMin }) => slackMin)).toEqual([null, null]);
  });

  it('takes the likely minutes where a step gives its spread alone', () => {
    const spread = { least: 4, likely: 6, most: 20 };
    expect(clockOf([step('a', 'Lead', { spread })]).clock.endMin).toBe(6);
  });
});
