import { describe, expect, it } from 'vitest';
import type { SearchMoment } from '../../../shared-types/records/window.ts';
import { courseMost } from '../../../shared-types/records/window.ts';
import { searchPlotLayout } from '../../../renderer/components/SearchPlot/searchPlotLayout.ts';
import { ended, withMoment } from '../../../renderer/features/bag/course.ts';
import { mapPlan, mapResult } from '../../support/bagMapPlan.ts';

const moment = (atS: number, best: number | null, bound: number | null, outing = 'o'): SearchMoment => ({
  ...{ atS, best, bound, outing },
});

describe('the course of a search', () => {
  it('leaves out what says nothing new', () => {
    const course = withMoment([moment(1, 4, 3)], moment(2, 4, 3));
    expect(course).toEqual([moment(1, 4, 3)]);
    expect(withMoment(course, moment(3, 4, 3.5))).toHaveLength(2);
    expect(withMoment(course, moment(3, 4, 3, 'p'))).toHaveLength(2);
  });

  it('stays bounded, and keeps where it began and where it is', () => {
    let course: readonly SearchMoment[] = [];
    for (let index = 0; index < 5000; index += 1) course = withMoment(course, moment(index, 9000 - index, index));
    expect(course.length).toBeLessThanOrEqual(courseMost);
    expect(course[0]?.atS).toBe(0);
    expect(course.at(-1)?.atS).toBe(4999);
    expect(course.map(({ atS }) => atS)).toEqual(course.map(({ atS }) => atS).toSorted((a, b) => a - b));
  });

  it('ends at the answer: proved, best and bound meet; stopped, the bound stays where it was', () => {
    const course = [moment(1, 2, 0.5)];
    const end = { minimised: 'mass' as const, atS: 3 };
    expect(ended(course, mapPlan, { ...end, result: mapResult }).at(-1)).toEqual({
      ...{ outing: 'o', atS: 3 },
      best: mapResult.objective?.value,
      bound: mapResult.objective?.value,
    });
    const stopped = { ...mapResult, status: 'stopped' as const };
    expect(ended(course, mapPlan, { ...end, result: stopped }).at(-1)).toMatchObject({ bound: 0.5 });
    expect(ended([], mapPlan, { ...end, result: mapResult })).toEqual([]);
    // An outing ends where the next begins.
    const two = [moment(1, null, 0.5), moment(2, 3, 1, 'p')];
    expect(ended(two, mapPlan, { ...end, result: mapResult }).map((one) => [one.outing, one.atS])).toEqual([
      ['o', 1],
      ['o', 2],
      ['p', 2],
    ]);
  });
});

describe('the drawing of it', () => {
  const kg = { unit: 'kg', of: (value: number) => value };
  const lb = { unit: 'lb', of: (value: number) => value / 0.45359237 };
  const layout = (moments: SearchMoment[], scales: [typeof kg, ...(typeof kg)[]] = [kg]) =>
    searchPlotLayout({ moments, untilS: 10, widthPx: 500, scales });
  const numbers = (path: string | null | undefined): number[] =>
    [...(path ?? '').matchAll(/-?\d+(?:\.\d+)?/g)].map(([n]) => Number(n));

  it('goes in steps: what was known stays known until something better is', () => {
    const { runs, leftPx, rightPx } = layout([moment(0, 4, 2), moment(5, 3, 2)]);
    const [x1, y1, x2, y2, x3, y3, x4] = numbers(runs[0]?.best);
    expect([x1, x2, x3, x4]).toEqual([leftPx, (leftPx + rightPx) / 2, (leftPx + rightPx) / 2, rightPx]);
    expect(y1).toBe(y2);
    // Less mass lies lower.
    expect(y3 ?? 0).toBeGreaterThan(y2 ?? 0);
  });

  it('draws nothing outside its data: before a best is found there is none', () => {
    const { runs } = layout([moment(1, null, 2), moment(4, 3, 2.5)]);
    const best = numbers(runs[0]?.best);
    const bound = numbers(runs[0]?.bound);
    expect(best[0] ?? 0).toBeGreaterThan(bound[0] ?? 0);
    expect(layout([moment(1, null, null)]).runs[0]).toMatchObject({ best: null, bound: null, gap: null });
  });

  it('hatches between best and bound, and no more where they meet', () => {
    const { runs } = layout([moment(0, 4, 2), moment(5, 3, 3)]);
    const ys = numbers(runs[0]?.gap).filter((_, index) => index % 2 === 1);
    expect(ys[0]).not.toBe(ys.at(-1));
    expect(runs[0]?.gap?.endsWith('Z')).toBe(true);
  });

  it('draws each outing by itself, one after the other on one axis of time', () => {
    const { runs } = layout([moment(0, 4, 2), moment(3, 6, 5, 'p')]);
    expect(runs.map(({ outing }) => outing)).toEqual(['o', 'p']);
    expect(runs[0]?.toPx).toBe(runs[1]?.fromPx);
  });

  it('has round ticks, 1-2-5, inside its field, and the same height for the same mass in both units', () => {
    const { left, right, seconds, topPx, bottomPx, leftPx, rightPx } = layout([moment(0, 4.2, 2.7)], [kg, lb]);
    expect(left.length).toBeGreaterThan(2);
    for (const { px } of [...left, ...right]) {
      expect(px).toBeGreaterThanOrEqual(topPx);
      expect(px).toBeLessThanOrEqual(bottomPx);
    }
    for (const { px } of seconds) expect(px >= leftPx && px <= rightPx).toBe(true);
    const at = (ticks: typeof left, value: number): number =>
      ticks.find(({ text }) => Number(text) === value)?.px ?? NaN;
    // 4 kg is 8.818 lb: between the ticks of 8 and 9 lb.
    expect(at(left, 4)).toBeLessThan(at(right, 8));
    expect(seconds.map(({ text }) => text)).toEqual(['0', '2', '4', '6', '8', '10']);
  });

  it('stands where everything is equal, or nothing is known', () => {
    for (const moments of [[], [moment(0, 0, 0)], [moment(2, 5, 5)]])
      expect(numbers(layout(moments).runs[0]?.best).every(Number.isFinite)).toBe(true);
  });
});
