import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { followPieces } from '../../../renderer/engine/outing/ledger/ledger.ts';
import { ledgerFaults } from '../../../renderer/engine/outing/ledger/ledgerFaults.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import type { BagOuting } from '../../../shared-types/bag.ts';
import type { PlanStep } from '../../../shared-types/plan.ts';
import { coursePlan } from './coursePlan.ts';
import { shareOf } from '../../support/shareOf.ts';

const gear = (id: string, says: object = {}) => ({ id, mass: '100 g', onHand: 9, ...says });
const bolt = (id: string, says: object) => ({ id, thread: 'M6', head: { form: 'hex', acrossFlats: '10 mm' }, ...says });
const catalog = {
  fasteners: [bolt('F', { captive: false, looseWashers: 1, onHand: 3 }), bolt('G', {})],
  carryGear: [
    gear('unit', { tethers: 1 }),
    gear('pouch', { pouchPlaces: 3 }),
    gear('set', { consumed: true, supplies: { fastener: 'G', quantity: 4 } }),
  ],
  bags: [{ id: 'B', role: 'Lead', tetherPoints: 1 }, { id: 'C' }],
};
const items: BagOuting['items'] = [
  { id: 'unit', quantity: 2, bag: 'B', because: [] },
  { id: 'unit', quantity: 1, bag: 'C', because: [] },
  { id: 'pouch', quantity: 1, bag: 'B', because: [] },
  { id: 'set', quantity: 2, bag: 'C', because: [] },
];

const from = fc.constantFrom('site', 'bag', 'tray', 'mount', 'Lead', 'Second');
const fastenerMove = fc
  .record(
    { id: fc.constantFrom('F', 'G'), quantity: fc.integer({ min: 1, max: 5 }), from, to: from },
    { requiredKeys: ['id', 'quantity', 'from'] },
  )
  .filter((one) => one.from !== one.to);
const supplied = fc.record({
  id: fc.constant('G'),
  quantity: fc.integer({ min: 1, max: 5 }),
  from: fc.constant('set'),
  to: from,
});
const place = fc.constantFrom('bag', 'tray', 'mount');
const move = fc.record({ id: fc.constant('unit'), quantity: fc.integer({ min: 1, max: 3 }), from: place, to: place });
const turned = fc.record({ action: fc.constantFrom('tighten', 'loosen', 'use'), fastener: fc.constantFrom('F', 'G') });
const steps = fc.array(
  fc.record({
    turned,
    outing: fc.constantFrom('O1', 'O2'),
    role: fc.constantFrom('Lead', 'Second'),
    slot: fc.constantFrom(undefined, undefined, 'x', 'y'),
    count: fc.integer({ min: 1, max: 5 }),
    minutes: fc.integer({ min: 0, max: 9 }),
    contingency: fc.constantFrom(undefined, undefined, undefined, true),
    fastenerMoves: fc.array(fc.oneof({ weight: 4, arbitrary: fastenerMove }, { weight: 1, arbitrary: supplied }), {
      maxLength: 3,
    }),
    moves: fc.array(move, { maxLength: 2 }),
    gear: fc.array(
      fc.record({ id: fc.constantFrom('unit', 'set', 'pouch'), quantity: fc.integer({ min: 1, max: 2 }) }),
      { maxLength: 2 },
    ),
  }),
  { maxLength: 8 },
);

describe('whatever a plan moves', () => {
  it('is never more or less than before, stands up to the second count, and is nowhere only where that is told', () => {
    fc.assert(
      fc.property(steps, fc.boolean(), (drawn, planned) => {
        const written = drawn.map(({ turned: { action, fastener }, slot, contingency, ...says }, index): PlanStep => {
          const torque = action === 'loosen' ? { demand: '5 N·m' } : { callout: { min: '5 N·m', max: '6 N·m' } };
          return {
            ...says,
            id: `s${index}`,
            action: action as PlanStep['action'],
            ...(action === 'use' ? {} : { fastener, ...torque }),
            ...(slot === undefined ? {} : { slot }),
            ...(contingency === undefined ? {} : { contingency }),
          };
        });
        const source = coursePlan({ steps: written, catalog, places: [{ id: 'tray' }, { id: 'mount', final: true }] });
        const outings = ['O1', 'O2'].map((id) => ({ id, roles: ['Lead', 'Second'], bags: ['B', 'C'] }));
        const plan = planFrom({ ...source, outings });
        const answers = planned
          ? outings.map(({ id }): BagOuting => {
              const ids = written.filter((step) => step.outing === id).map((step) => step.id);
              return {
                id,
                massKg: 0,
                items,
                steps: ids.map((step) => ({ id: step, stack: [], hold: null, setting: null })),
              };
            })
          : [];
        const { ledger } = followPieces(plan, answers);
        expect(ledgerFaults(plan, answers, ledger)).toEqual([]);
        const without = followPieces(plan, answers, { withRows: false }).ledger;
        expect(without.problems).toEqual(ledger.problems);
        expect(ledger.problems.every(({ mends, quantity }) => mends.length > 0 && quantity > 0)).toBe(true);
      }),
      { seed: 11, numRuns: shareOf(400) },
    );
  });
});
