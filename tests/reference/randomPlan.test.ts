import { describe, expect, it } from 'vitest';
import { leastBag } from './exhaustive.ts';
import { randomPlan } from './randomPlan.ts';
import { readStock } from './stock.ts';

const plans = Array.from({ length: 300 }, (_, index) => randomPlan(index + 1));

describe('a random plan', () => {
  it('is its seed: the same bytes every time', () => {
    for (const { seed, plan } of plans.slice(0, 50)) {
      expect(JSON.stringify(randomPlan(seed).plan), `seed ${seed}`).toBe(JSON.stringify(plan));
    }
    expect(new Set(plans.map(({ plan }) => JSON.stringify(plan))).size).toBe(plans.length);
  });

  it('has at most 12 pieces', () => {
    for (const { seed, plan } of plans) {
      const pieces = [...readStock(plan).carried.values()].reduce((sum, item) => sum + item.onHand, 0);
      expect(pieces, `seed ${seed}`).toBeLessThanOrEqual(12);
    }
  });

  it('is feasible in 55 to 80 of 100', () => {
    const feasible = plans.filter(({ plan, minimise }) => leastBag(plan, minimise).feasible).length;
    expect(feasible / plans.length).toBeGreaterThan(0.55);
    expect(feasible / plans.length).toBeLessThan(0.8);
  });

  it.each([
    ['a hold', '"hold":'],
    ['a slot', '"slot":'],
    ['a role bag', '"bags":[{"id":"bag-1","role":'],
    ['moves', '"moves":'],
    ['consumed gear', '"consumed":true'],
    ['a contingency step', '"contingency":true'],
    ['running torque left out', '"runningIncluded":false'],
    ['running torque included', '"runningIncluded":true'],
    ['a list of settings', '"settings":'],
    ['an increment', '"increment":'],
    ['a tool that loosens', '"loosens":true'],
    ['a share of the range', '"rangeShareMin":'],
    ['a universal joint', '"universal"'],
    ['an adapter', '"adapter"'],
    ['a drive by its metric name', '"drive":"10 mm"'],
    ['torque in lbf·ft', 'lbf·ft'],
    ['torque in lbf·in', 'lbf·in'],
    ['mass in ounces', ' oz"'],
    ['mass in pounds', ' lb"'],
    ['lengths in inches', ' in"'],
    ['nothing on hand', '"onHand":0'],
    ['a piece that weighs nothing', '"mass":"0 g"'],
    ['an inner depth to reach over', '"protrusion":'],
    ['a swing', '"swingDeg":'],
    ['a handle radius', '"handleRadius":'],
    ['a limit of mass', '"massMax":'],
    ['a limit of volume', '"volumeMax":'],
    ['a limit of pieces', '"itemsMax":'],
    ['a limit of size', '"sizeMax":'],
    ['a limit of tethers', '"tetherPoints":'],
    ['minutes', '"minutesMax":'],
    ['three outings', '"id":"third"'],
  ])('has now and then %s', (_, text) => {
    expect(plans.filter(({ plan }) => JSON.stringify(plan).includes(text)).length).toBeGreaterThanOrEqual(3);
  });

  it('minimises each of mass, count and volume', () => {
    expect(new Set(plans.map(({ minimise }) => minimise))).toEqual(new Set(['mass', 'count', 'volume']));
  });
});
