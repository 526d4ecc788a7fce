import { describe, expect, it } from 'vitest';
import { readPlan } from '../../renderer/engine/plan/readPlan.ts';
import { gapText } from '../../renderer/features/bag/BagHeading.tsx';
import { timeLimitFault } from '../../renderer/features/bagPlan/timeLimit.ts';
import { shownOnce, shownText } from '../../renderer/features/steps/shownText.ts';
import { shownBandNm, torqueParts } from '../../renderer/engine/torque/torqueParts.ts';
import { fewNumbersText, numbersText } from '../../renderer/features/steps/words.ts';
import { asText, shownPlan } from './fixtures/plans.ts';

describe('texts of checks in the units asked for', () => {
  it.each([
    ['6.44 in', 'as-written', '6.44 in'],
    ['6.44 in', 'si', '163.58 mm'],
    ['at most ⌀ 1 in', 'si', 'at most ⌀ 25 mm'],
    ['short by 0.75 in', 'inch-pound', 'short by 0.75 in'],
    ['60 deg over', 'both', '60° over'],
    ['every square meets its like', 'si', 'every square meets its like'],
    ['1 piece of X-6 on hand', 'si', '1 piece of X-6 on hand'],
  ] as const)('%s in %s', (text, mode, expected) => {
    expect(shownText(text, mode)).toBe(expected);
  });

  it('converts a band inward', () => {
    expect(shownText('inside 40–50 lbf·ft', 'both')).toBe('inside 40–50 lbf·ft (54.3–67.7 N·m)');
  });

  it('leaves ids that look like figures alone', () => {
    expect(shownText('S-9/16 in the bag, B2 in', 'si')).toBe('S-9/16 in the bag, B2 in');
  });

  it('gives one unit where there is room for one', () => {
    expect(shownOnce('2.25 in over', 'both')).toBe('2.25 in over');
    expect(shownOnce('2.25 in over', 'si')).toBe('57.15 mm over');
  });
});

describe('a callout taken apart', () => {
  const step = (change: Record<string, unknown>) => {
    const plan = shownPlan();
    const changed = { ...plan, steps: [{ ...plan.steps[1], ...change }] };
    const resolved = readPlan(asText(changed)).steps[0];
    if (resolved === undefined) throw new Error('the plan has no step');
    return resolved;
  };

  it('leaves for seating what running does not take, ends against each other', () => {
    const included = step({});
    const parts = torqueParts(included);
    // 30 − 80/12 = 23.33 and 35 − 10/12 = 34.17 lbf·ft, shown inward.
    expect(parts?.seating && shownBandNm(parts.seating, included, 'as-written')).toBe('23.4–34.1 lbf·ft');
    expect(parts && shownBandNm(parts.wrench, included, 'as-written')).toBe('30–35 lbf·ft');
  });

  it('adds running to the wrench where the callout is for seating', () => {
    const added = step({ runningIncluded: false, running: { min: '10 lbf·in', max: '24 lbf·in' } });
    const parts = torqueParts(added);
    expect(parts && shownBandNm(parts.wrench, added, 'as-written')).toBe('32.0–35.8 lbf·ft');
    expect(parts?.seating && shownBandNm(parts.seating, added, 'as-written')).toBe('30–35 lbf·ft');
  });

  it('says that nothing is left rather than a negative torque', () => {
    expect(torqueParts(step({ running: { min: '1 lbf·ft', max: '31 lbf·ft' } }))?.seating).toBeNull();
  });
});

describe('small words', () => {
  it.each([
    [[1, 5, 9, 10, 11], '1, 5, 9–11'],
    [[2, 1, 2], '1, 2'],
    [[], ''],
  ])('writes step numbers %j as %s', (numbers, text) => {
    expect(numbersText(numbers)).toBe(text);
  });

  it.each([
    [[1, 3, 5, 7, 9, 11, 13, 15, 17, 19, 21, 23], '1, 3, 5, 7, 9, 11, 13, 15, 17, 19, 21, 23'],
    [[1, 3, 5, 7, 9, 11, 13, 15, 17, 19, 21, 23, 25, 27, 29], '1, 3, 5, 7, 9, 11, 13, 15, 17, 19, 21, 23 and 3 more'],
    [Array.from({ length: 40 }, (_, index) => index + 1), '1–40'],
  ])('%j, where there is little room, are %s', (numbers, text) => {
    expect(fewNumbersText(numbers)).toBe(text);
  });

  it.each(['', '30', '2.5', ' 86400 '])('takes the time limit "%s"', (typed) => {
    expect(timeLimitFault(typed)).toBeNull();
  });
  it.each(['0', '-1', '1,5', 'soon', '1e3', '86401', 'NaN'])('refuses the time limit "%s" by quoting it', (typed) => {
    expect(timeLimitFault(typed)).toContain(`"${typed}"`);
  });

  it('never rounds a gap that is there to nothing', () => {
    expect(gapText(0.0000123)).not.toMatch(/^0(\.0*)? %/);
    expect(gapText(0.04)).toBe('4 %');
  });
});
