import { describe, expect, it } from 'vitest';
import { askCases } from './askCases.ts';
import { bagCases } from './bagCases.ts';
import { referenceResult } from './answer.ts';
import { leastBag } from './exhaustive.ts';
import { judge } from './judge.ts';
import { stackCases } from './stackCases.ts';
import { extension, handPlan, loosen, ratchet, socket, tighten, wrench } from './handPlan.ts';

describe('the exhaustive search answers as by hand', () => {
  it.each([...stackCases, ...bagCases])('$says', ({ plan, kg }) => {
    const { feasible, value } = leastBag(plan, 'mass');
    expect(feasible).toBe(kg !== null);
    if (kg !== null) expect(value).toBeCloseTo(kg, 12);
  });
});

describe('what is asked beside the plan is answered as by hand', () => {
  it.each(askCases)('$says', ({ plan, ask, kg }) => {
    const { feasible, value } = leastBag(plan, ask);
    expect(feasible).toBe(kg !== null);
    if (kg !== null) expect(value).toBeCloseTo(kg, 12);
  });

  it.each(askCases)('the judge finds nothing: $says', ({ plan, ask }) => {
    expect(judge(plan, ask, referenceResult(plan, ask))).toEqual([]);
  });
});

describe('the objectives', () => {
  it('count pieces, not bags', () => {
    expect(leastBag(handPlan(), 'count').value).toBe(2);
  });

  it('add litres', () => {
    expect(leastBag(handPlan(), 'volume').value).toBeCloseTo(0.4, 12);
  });

  it('choose another stack where another thing is least', () => {
    // Deep 150 mm: the deep socket alone weighs 300 g, socket and extension 250 g; but they are two pieces for one.
    const sockets = [socket(), socket({ id: 'deep', length: '150 mm', mass: '300 g', volume: '0.5 L' })];
    const plan = handPlan([loosen({ access: { depth: '150 mm' } })], { sockets });
    expect(leastBag(plan, 'mass').value).toBeCloseTo(0.3 + 0.25 + 0.2, 12);
    expect(leastBag(plan, 'count').value).toBe(2);
    expect(leastBag(plan, 'volume').value).toBeCloseTo(0.3 + 0.1 + 0.2, 12);
  });

  it('share a heavy piece rather than take two light ones', () => {
    // The wrench that loosens too (600 g) saves the ratchet (300 g) once something is tightened.
    const plan = handPlan([loosen(), tighten()], { torqueTools: [wrench({ loosens: true })] });
    const least = leastBag(plan, 'mass');
    expect(least.value).toBeCloseTo(0.6 + 0.1 + 0.2, 12);
    expect(least.outings[0]?.steps.map((step) => step.stack)).toEqual([
      ['wrench', 'socket'],
      ['wrench', 'socket'],
    ]);
  });

  it('count a bag where it holds something on each outing', () => {
    const twice = handPlan(
      [loosen(), loosen({ id: 'again', outing: 'back' })],
      {},
      { outings: ['out', 'back'].map((id) => ({ id, roles: ['Lead'], bags: ['sack'] })) },
    );
    expect(leastBag(twice, 'mass').value).toBeCloseTo(1.2, 12);
    expect(leastBag(twice, 'count').value).toBe(4);
  });

  it('take the whole stock where each extension is needed', () => {
    const extensions = [extension({ onHand: 2 }), extension({ id: 'short', length: '40 mm', mass: '70 g' })];
    const plan = handPlan([loosen({ access: { depth: '290 mm' } })], { extensions, drivers: [ratchet()] });
    expect(leastBag(plan, 'mass').value).toBeCloseTo(0.3 + 0.1 + 0.3 + 0.07 + 0.2, 12);
  });
});
