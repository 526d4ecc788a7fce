import { describe, expect, test } from 'vitest';
import type { Interface } from '../../../shared-types/records/site.ts';
import { gearOffered } from '../../../renderer/features/steps/fromInterface.ts';
import { withEdits, type Offered } from '../../../renderer/features/steps/offered/offeredSteps.ts';
import { offeredBy, touchedOf } from '../../../renderer/features/steps/offered/usualAsked.ts';

const latch: Interface = {
  ...{ id: 'i1', rev: 1, site: 's1', code: 'L1', kind: 'latch', count: 2 },
  gear: [
    { id: 'PIN', quantity: 2 },
    { id: 'CAP', quantity: 1 },
  ],
};

describe('what works an interface', () => {
  test('is offered to a step that is done by hand or with gear, and not twice', () => {
    expect(gearOffered({ action: 'use' }, latch)).toEqual(latch.gear);
    expect(gearOffered({ action: 'use', gear: [{ id: 'PIN', quantity: 9 }] }, latch)).toEqual([
      { id: 'CAP', quantity: 1 },
    ]);
    expect(gearOffered({ action: 'tighten' }, latch)).toEqual([]);
    expect(gearOffered({ action: 'use' }, undefined)).toEqual([]);
  });

  test('is taken along by the usual steps, and changed there without losing the rest', () => {
    const draft = { interfaces: { i1: 'yes' }, outing: 'O1', role: 'Lead' };
    const steps = offeredBy(draft, touchedOf(draft, [latch], []));
    const offered = steps.map((one): Offered => ({ ...one, isAdded: true, asks: [] }));
    expect(offered[0]?.step.gear).toEqual(latch.gear);
    const gearAfter = (gear: string) => withEdits({ edits: { 'i1-open': { gear } } }, offered)[0]?.step.gear;
    expect(gearAfter('KEY')).toEqual([
      { id: 'KEY', quantity: 2 },
      { id: 'CAP', quantity: 1 },
    ]);
    expect(gearAfter('')).toEqual([{ id: 'CAP', quantity: 1 }]);
  });

  test('with an order of tightening is followed, or said to be at fault', () => {
    const flange: Interface = { ...latch, kind: 'fastener', fastener: 'F', count: 3, order: ['1', '3', '2'] };
    const touched = (more: Partial<Interface>) =>
      touchedOf({ interfaces: { i1: 'yes' } }, [{ ...flange, ...more }], [])[0];
    expect(touched({})).toMatchObject({ order: ['1', '3', '2'] });
    expect(touched({})).not.toHaveProperty('orderFault');
    expect(touched({ order: ['1', '3'] })?.orderFault).toBe('lacks position 2');
    expect(touched({ pattern: 'no pattern' })?.orderFault).toBe('cannot be held against its pattern');
  });
});
