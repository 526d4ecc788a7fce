import { describe, expect, it } from 'vitest';
import { referenceResult } from './answer.ts';
import { plainAsk } from './ask.ts';
import { askCases } from './askCases.ts';
import { bagCases } from './bagCases.ts';
import { breakNames, breaks } from './breaks.ts';
import type { BreakName } from './breaks.ts';
import { leastBag } from './exhaustive.ts';
import { stackCases } from './stackCases.ts';
import { judge } from './judge.ts';
import { randomPlan } from './randomPlan.ts';

/** Rules that choose no bag: settings and problems. The judge alone sees them, on plans that have some. */
const judgeOnly: BreakName[] = [
  'settingChoice',
  'settingTie',
  'lastMove',
  'moveThere',
  'finalPlace',
  'slotMinutes',
  'contingencyMinutes',
];

describe('the hand-made cases', () => {
  const plain = [...stackCases, ...bagCases].map((one) => ({ ...one, ask: plainAsk('mass') }));
  const cases = [...plain, ...askCases];

  it.each(breakNames.filter((name) => !judgeOnly.includes(name)).map((name) => [name, breaks[name]]))(
    'would notice a break: %s (%s)',
    (name) => {
      const noticed = cases.filter(({ plan, ask, kg }) => {
        const { value } = leastBag(plan, ask, name as BreakName);
        return value === null || kg === null ? value !== kg : Math.abs(value - kg) > 1e-9;
      });
      expect(noticed.map(({ says }) => says)).not.toEqual([]);
    },
  );
});

describe('the random plans', () => {
  const answers = Array.from({ length: 150 }, (_, index) => {
    const { seed, plan, minimise } = randomPlan(index + 1);
    return { seed, plan, minimise, result: referenceResult(plan, minimise) };
  });

  it.each(judgeOnly.map((name) => [name, breaks[name]]))('let the judge notice a break: %s (%s)', (name) => {
    const noticed = answers.filter(
      ({ plan, minimise, result }) => judge(plan, minimise, result, name as BreakName).length > 0,
    );
    expect(noticed.map(({ seed }) => seed)).not.toEqual([]);
  });

  it('are answered by the search without a word from the judge', () => {
    const accused = answers.flatMap(({ seed, plan, minimise, result }) =>
      judge(plan, minimise, result).map((violation) => ({ seed, ...violation })),
    );
    expect(accused).toEqual([]);
  });
});
