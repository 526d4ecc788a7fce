import { describe, expect, it } from 'vitest';
import { leastBag } from './exhaustive.ts';
import { randomPlan } from './randomPlan.ts';
import { readStock } from './stock.ts';

const plans = Array.from({ length: 300 }, (_, index) => randomPlan(index + 1));

describe('a random plan', () => {
  it('is its seed: the same bytes every time', () => {
    for (const one of plans.slice(0, 50)) {
      expect(JSON.stringify(randomPlan(one.seed)), `seed ${one.seed}`).toBe(JSON.stringify(one));
    }
    expect(new Set(plans.map(({ plan }) => JSON.stringify(plan))).size).toBe(plans.length);
  });

  it('has at most 12 pieces, spares of gear not counted', () => {
    for (const { seed, plan, options } of plans) {
      const spare = new Set(options.spares.map(({ id }) => id));
      const pieces = [...readStock(plan).carried.values()]
        .filter(({ id }) => !spare.has(id))
        .reduce((sum, item) => sum + item.onHand, 0);
      expect(pieces, `seed ${seed}`).toBeLessThanOrEqual(12);
    }
  });

  it.each([
    ['nothing', 0.55, 0.75],
    ['piece', 0.45, 0.75],
    ['bag', 0.35, 0.75],
  ])('is feasible where %s may be lost in %d to %d of 1', (tolerance, least, most) => {
    const asked = plans.filter(({ options }) => options.tolerance === tolerance);
    const feasible = asked.filter(({ plan, options }) => leastBag(plan, options).feasible).length;
    expect(asked.length).toBeGreaterThanOrEqual(30);
    expect(feasible / asked.length).toBeGreaterThan(least);
    expect(feasible / asked.length).toBeLessThan(most);
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

  it.each(['keep', 'forbid', 'spares'] as const)('is asked now and then to %s, with and without an outing', (wish) => {
    const wishes = plans.flatMap(({ options }) => options[wish]);
    expect(wishes.filter(({ outing }) => outing === undefined).length).toBeGreaterThanOrEqual(10);
    expect(wishes.filter(({ outing }) => outing !== undefined).length).toBeGreaterThanOrEqual(5);
  });

  it('minimises each of mass, count and volume', () => {
    expect(new Set(plans.map(({ minimise }) => minimise))).toEqual(new Set(['mass', 'count', 'volume']));
  });
});
