import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { axisTitle, frameLayout } from '../../../renderer/components/plot/axis.ts';
import { cyclePlotLayout, isOut } from '../../../renderer/components/plot/cyclePlotLayout.ts';
import { preloadPlotLayout } from '../../../renderer/components/plot/preloadPlotLayout.ts';
import type { PreloadPlotData } from '../../../renderer/components/plot/preloadPlotLayout.ts';
import { roundTicks, spreadApart } from '../../../renderer/components/plot/ticks.ts';

const at = (torqueNm: number) => ({
  torqueNm,
  leastN: 300 * torqueNm,
  nominalN: 500 * torqueNm,
  greatestN: 700 * torqueNm,
});

const preload: PreloadPlotData = {
  curve: [at(0), at(30), at(40)],
  band: { minNm: 30, maxNm: 40 },
  limits: [],
  torqueUnits: ['N·m', 'lbf·ft'],
  forceUnits: ['kN', 'lbf'],
};

const numbersIn = (path: string): number[] => (path.match(/-?\d+(?:\.\d+)?/g) ?? []).map(Number);

describe('ticks', () => {
  it('are steps of 1, 2 or 5, within the ends, as many as asked at the most', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        fc.double({ min: 1e-3, max: 1e6, noNaN: true }),
        fc.integer({ min: 3, max: 9 }),
        (from, width, most) => {
          const ticks = roundTicks(from, from + width, most);
          expect(ticks.length).toBeLessThanOrEqual(most + 1);
          const slack = 1e-6 * (Math.abs(from) + width);
          for (const { value } of ticks) {
            expect(value).toBeGreaterThanOrEqual(from - slack);
            expect(value).toBeLessThanOrEqual(from + width + slack);
          }
          const [first, second] = ticks;
          if (first === undefined || second === undefined) return;
          const step = second.value - first.value;
          const mantissa = step / 10 ** Math.floor(Math.log10(step * (1 + 1e-6)));
          expect([1, 2, 5].some((one) => Math.abs(mantissa - one) < 1e-3)).toBe(true);
        },
      ),
      { numRuns: 300, seed: 1 },
    );
  });

  it('are none where there is no room between the ends', () => {
    expect(roundTicks(5, 5)).toEqual([]);
    expect(roundTicks(5, 4)).toEqual([]);
  });

  it('of labels that would touch stand apart, and within the field', () => {
    expect(spreadApart([100, 102, 50], 15, { from: 10, to: 200 })).toEqual([100, 115, 50]);
    const tight = spreadApart([198, 199, 200], 15, { from: 10, to: 200 });
    expect(tight).toEqual([170, 185, 200]);
  });
});

describe('an axis', () => {
  it('says quantity / unit, and both scales mean the same length', () => {
    expect(axisTitle('preload', 'kN')).toBe('preload / kN');
    expect(axisTitle('cycle', '')).toBe('cycle');
    const layout = frameLayout(
      { quantity: 'x', units: [{ unit: 'mm', per: 1 }], from: 0, to: 10 },
      {
        quantity: 'y',
        units: [
          { unit: 'mm', per: 1 },
          { unit: 'in', per: 1 / 25.4 },
        ],
        from: 0,
        to: 254,
      },
      600,
      300,
    );
    const inches = layout.yTicks[1] ?? [];
    expect(inches.at(-1)?.value).toBe(10);
    expect(layout.y(254)).toBe(layout.topPx);
    expect(layout.rightPx).toBeLessThan(600 - 16);
  });
});

describe('preload against torque', () => {
  it('draws no curve beyond its data', () => {
    const { frame, nominal, scatter } = preloadPlotLayout(preload, 600);
    const end = frame.x(40);
    for (const path of [nominal, scatter]) {
      const xs = numbersIn(path).filter((_, index) => index % 2 === 0);
      expect(Math.max(...xs)).toBeCloseTo(end, 0);
      expect(Math.min(...xs)).toBeCloseTo(frame.x(0), 0);
    }
    expect(end).toBeLessThan(frame.rightPx);
  });

  it('fills what falls short of a limit within the band, and nothing else', () => {
    const below = (preloadN: number) =>
      preloadPlotLayout(
        { ...preload, limits: [{ preloadN, name: 'least asked', source: 'as typed', line: 'limit', short: 'below' }] },
        600,
      );
    expect(below(9000).short).toEqual([]);
    const partly = below(10_500);
    expect(partly.short).toHaveLength(1);
    const xs = numbersIn(partly.short[0] ?? '').filter((_, index) => index % 2 === 0);
    expect(Math.min(...xs)).toBeCloseTo(partly.frame.x(30), 0);
    // 300·T = 10 500 at 35 N·m.
    expect(Math.max(...xs)).toBeCloseTo(partly.frame.x(35), 0);
    const whole = below(13_000);
    expect(Math.max(...numbersIn(whole.short[0] ?? '').filter((_, index) => index % 2 === 0))).toBeCloseTo(
      whole.frame.x(40),
      0,
    );
  });

  it('fills what goes beyond the proof load, and labels the line with its source', () => {
    const layout = preloadPlotLayout(
      {
        ...preload,
        limits: [{ preloadN: 24_500, name: 'proof load', source: 'ISO 898-1', line: 'proof', short: 'above' }],
      },
      600,
    );
    expect(layout.short).toHaveLength(1);
    expect(layout.limits[0]?.text).toBe('proof load 24.5 kN (ISO 898-1)');
  });

  it('keeps a preload below 0 in the field: the joint opens there', () => {
    const layout = preloadPlotLayout({ ...preload, curve: [{ ...at(0), leastN: -2000 }, at(40)] }, 600);
    expect(layout.frame.y(-2000)).toBeLessThan(layout.frame.bottomPx);
  });
});

describe('torque against cycles', () => {
  const limits = [
    { torqueNm: 3, name: 'running at most', source: 'a document', of: 'running' as const },
    { torqueNm: 0.4, name: 'breakaway at least', source: 'a document', of: 'breakaway' as const },
  ];

  it('marks what breaks its own limit, ends included', () => {
    expect(isOut(3, 'running', limits)).toBe(false);
    expect(isOut(3.01, 'running', limits)).toBe(true);
    expect(isOut(0.4, 'breakaway', limits)).toBe(false);
    expect(isOut(0.39, 'breakaway', limits)).toBe(true);
    expect(isOut(0.1, 'running', limits)).toBe(false);
  });

  it('has a tick for whole cycles alone, and leaves out what was not read', () => {
    const layout = cyclePlotLayout(
      {
        readings: [
          { cycle: 1, runningNm: 2, breakawayNm: null },
          { cycle: 2, runningNm: 3.5, breakawayNm: 0.3 },
        ],
        limits,
        units: ['N·m'],
      },
      600,
    );
    expect(layout.frame.xTicks[0]?.map(({ text }) => text)).toEqual(['1', '2']);
    expect(layout.points.map(({ of, out }) => [of, out])).toEqual([
      ['running', false],
      ['running', true],
      ['breakaway', true],
    ]);
  });

  it('draws a fit given to it between its own ends', () => {
    const layout = cyclePlotLayout(
      {
        readings: [{ cycle: 1, runningNm: null, breakawayNm: 1 }],
        limits: [],
        units: ['N·m'],
        fit: {
          method: 'a line',
          points: [
            { cycle: 1, valueNm: 1, lowNm: 0.9, highNm: 1.1 },
            { cycle: 4, valueNm: 0.4, lowNm: -0.1, highNm: 0.9 },
          ],
        },
      },
      600,
    );
    const xs = numbersIn(layout.fit?.line ?? '').filter((_, index) => index % 2 === 0);
    expect(xs).toEqual([layout.frame.x(1), layout.frame.x(4)].map((px) => Math.round(px * 10) / 10));
    expect(layout.frame.y(-0.1)).toBeLessThan(layout.frame.bottomPx);
  });
});
