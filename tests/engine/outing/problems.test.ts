import { describe, expect, it } from 'vitest';
import { followPieces } from '../../../renderer/engine/outing/ledger/ledger.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import type { BagOuting } from '../../../shared-types/bag.ts';
import type { CourseProblem } from '../../../shared-types/outing.ts';
import type { PlanStep } from '../../../shared-types/plan.ts';
import { coursePlan, step } from './coursePlan.ts';

const carried = { mass: '100 g', onHand: 2 };
const bolt = { id: 'F', thread: 'M6', head: { form: 'hex', acrossFlats: '10 mm' } };
const catalog = (says: Record<string, unknown> = {}) => ({
  fasteners: [{ ...bolt, ...says }],
  drivers: [{ ...carried, id: 'rt', drive: '10 mm', max: '50 N·m', tethers: 1 }],
  sockets: [
    {
      ...carried,
      id: 's10',
      drive: '10 mm',
      opening: { form: 'hex6', size: '10 mm' },
      length: '20 mm',
      outsideDiameter: '16 mm',
      ratedTorque: '50 N·m',
    },
  ],
  carryGear: [
    { ...carried, id: 'unit', tethers: 1 },
    { ...carried, id: 'pouch', pouchPlaces: 3 },
    { ...carried, id: 'set', consumed: true, supplies: { fastener: 'F', quantity: 4 } },
  ],
  bags: [{ id: 'B', role: 'Lead', mass: '1 kg', tetherPoints: 1 }, { id: 'C' }],
});
const line = (id: string, bag = 'B', quantity = 1) => ({ id, quantity, bag, because: ['a'] });
const bag = (items: BagOuting['items'], stacks: Record<string, string[]> = {}): BagOuting => ({
  id: 'O1',
  massKg: 1,
  items,
  steps: Object.entries(stacks).map(([id, stack]) => ({ id, stack, hold: null, setting: null })),
});
const turn = (id: string, action: 'loosen' | 'tighten', says: Partial<PlanStep> = {}): PlanStep =>
  step(id, 'Lead', {
    action,
    fastener: 'F',
    count: 4,
    ...(action === 'loosen' ? { demand: '5 N·m' } : { callout: { min: '5 N·m', max: '6 N·m' } }),
    ...says,
  });

interface Asked {
  steps: PlanStep[];
  outings?: BagOuting[];
  fastener?: Record<string, unknown>;
  outing?: Record<string, unknown>;
}

function follow({ steps, outings = [bag([line('rt'), line('s10')])], fastener = {}, outing = {} }: Asked) {
  const places = [{ id: 'tray' }, { id: 'mount', final: true }];
  const of = { steps, catalog: catalog(fastener), places, outing: { bags: ['B', 'C'], ...outing } };
  return followPieces(planFrom(coursePlan(of)), outings);
}
const problems = (asked: Asked): CourseProblem[] => follow(asked).ledger.problems;
const told = (asked: Asked) =>
  problems(asked).map(({ rule, step: at, id, kind, quantity }) => `${rule} ${quantity} ${kind} ${id} ${at}`);
const moves = (from: string, to?: string, quantity = 4) => [
  { id: 'F', quantity, from, ...(to === undefined ? {} : { to }) },
];

describe('a loosened fastener', () => {
  it('is loose where nothing says where it goes, with its washers, until the end', () => {
    const asked = { steps: [turn('a', 'loosen', { fastenerMoves: moves('site') })], fastener: { looseWashers: 2 } };
    expect(told(asked)).toEqual(['loose 4 fastener F a', 'loose 8 washer F a']);
    expect(problems(asked)[0]).toMatchObject({ until: null, mends: [{ how: 'pouch' }, { how: 'place' }] });
  });

  it.each([['bag'], ['tray'], ['Second']])('is accounted for in %s, from where it is put in again', (where) => {
    const steps = [
      turn('a', 'loosen', { fastenerMoves: moves('site', where) }),
      turn('b', 'tighten', { fastenerMoves: moves(where, 'site') }),
    ];
    expect(told({ steps, outings: [bag([line('rt'), line('s10'), line('pouch', 'C', 2)])] })).toEqual([]);
  });

  it('is left behind at a place, and the step that passes there later could fetch it', () => {
    const steps = [
      turn('a', 'loosen', { fastenerMoves: moves('site', 'tray') }),
      step('b', 'Second', { moves: [{ id: 'unit', quantity: 1, from: 'bag', to: 'tray' }] }),
      step('c', 'Second', { moves: [{ id: 'unit', quantity: 1, from: 'tray', to: 'bag' }] }),
    ];
    const [left] = problems({ steps, outings: [bag([line('unit', 'C')])] });
    expect(left).toMatchObject({ rule: 'left-behind', id: 'F', quantity: 4, place: 'tray', step: 'a' });
    expect(left?.mends).toMatchObject([{ how: 'fetch', step: 'b' }]);
  });

  it('stays in its hole where it is captive, and must be tightened where others are', () => {
    expect(told({ steps: [turn('a', 'loosen')], fastener: { captive: true } })).toEqual([]);
    expect(told({ steps: [turn('a', 'loosen')] })).toEqual([]);
    expect(told({ steps: [turn('a', 'loosen')], fastener: { captive: false } })).toEqual([
      'left-loosened 4 fastener F a',
    ]);
    expect(told({ steps: [turn('a', 'loosen'), turn('b', 'tighten', { count: 3 })] })).toEqual([
      'left-loosened 1 fastener F a',
    ]);
  });

  it('does not wait in its hole where the plan says that it is loose', () => {
    expect(told({ steps: [turn('a', 'tighten')], fastener: { captive: false } })).toEqual(['not-there 4 fastener F a']);
    const { ledger } = follow({ steps: [turn('a', 'tighten')] });
    expect(ledger.problems).toEqual([]);
    expect(ledger.assumptions.join(' ')).toMatch(/in their holes before step a/);
  });

  it('comes from gear that supplies it, and what is left of a set goes into the bag', () => {
    const steps = [
      turn('a', 'tighten', { count: 3, gear: [{ id: 'set', quantity: 1 }], fastenerMoves: moves('set', 'site', 3) }),
    ];
    const { ledger } = follow({ steps, outings: [bag([line('set'), line('pouch')])], fastener: { captive: false } });
    expect(ledger.problems).toEqual([]);
    const done = ledger.entries
      .find(({ moment }) => moment === 'done')
      ?.rows.filter(({ id }) => id === 'F' || id === 'set');
    expect(done).toMatchObject([
      { id: 'set', quantity: 1, secured: 'used' },
      { id: 'F', quantity: 3, secured: 'fixed' },
      { id: 'F', quantity: 1, where: { at: 'bag', bag: 'B', pouch: 'pouch' }, secured: 'bagged' },
    ]);
  });

  it('is counted against what its step turns', () => {
    const steps = [turn('a', 'loosen', { fastenerMoves: moves('site', 'tray', 5) })];
    expect(told({ steps })).toContain('count-differs 1 fastener F a');
  });

  it('is missed at the site when fewer come back than went', () => {
    const steps = [
      turn('a', 'loosen', { fastenerMoves: moves('site', 'bag') }),
      turn('b', 'tighten', { count: 2, fastenerMoves: moves('bag', 'site', 2) }),
    ];
    expect(told({ steps })).toEqual(['site-short 2 fastener F b']);
  });
});

describe('what secures a piece', () => {
  const out = turn('a', 'loosen', { fastenerMoves: moves('site', 'bag') });
  const home = turn('b', 'tighten', { fastenerMoves: moves('bag', 'site') });

  it('is a pouch with a place for each of its pieces', () => {
    expect(told({ steps: [out, home], outings: [bag([line('pouch')])] })).toEqual(['no-pouch-place 1 fastener F a']);
    const { ledger } = follow({ steps: [out, home], outings: [bag([line('pouch', 'B', 2)])] });
    expect(ledger.problems).toEqual([]);
    expect(ledger.needs[0]?.pouchPlaces).toEqual({ needed: 4, available: 6, step: 'a' });
  });

  it('is a tether point of the bag it was taken from', () => {
    const steps = [step('a', 'Lead', { moves: [{ id: 'unit', quantity: 2, from: 'bag', to: 'mount' }] })];
    const outings = [bag([line('unit', 'B', 2)])];
    const [problem] = problems({ steps, outings });
    expect(problem).toMatchObject({ rule: 'no-tether-point', id: 'unit', quantity: 1, step: 'a' });
    expect(problem?.mends).toMatchObject([{ how: 'tether-point' }]);
    const begun = follow({ steps, outings }).ledger.entries.find(({ moment }) => moment === 'begun');
    expect(begun?.rows.map(({ secured }) => secured)).toEqual(['tethered', 'held']);
    expect(told({ steps, outings: [bag([line('unit', 'C', 2)])] })).toEqual([]);
  });

  it('is two hands at the most', () => {
    const hold = { fastener: 'F' };
    const steps = [
      turn('a', 'loosen', { fastenerMoves: moves('site', 'Lead'), after: [] }),
      turn('b', 'tighten', { hold, count: 1 }),
    ];
    const answer = bag([line('rt', 'B', 2), line('s10', 'B', 2)], { a: ['rt', 's10'], b: ['rt', 's10'] });
    const both = answer.steps.map((one) => (one.id === 'b' ? { ...one, hold: ['rt', 's10'] } : one));
    expect(told({ steps, outings: [{ ...answer, steps: both }] })).toContain('hands-full 1 role Lead b');
  });
});

describe('what would mend a problem', () => {
  it('is called by its name, with the id in brackets, and a long name is cut', () => {
    const laid = (name: string): PlanStep =>
      step('a', 'Lead', { name, moves: [{ id: 'unit', quantity: 1, from: 'bag', to: 'tray' }] });
    const says = (name: string) => problems({ steps: [laid(name)], outings: [] })[0]?.mends[0]?.says;
    const rest = 'lays unit at tray and no step comes by later: bring it home, or say that the place is final.';
    expect(says('Lay the unit down')).toBe(`Step Lay the unit down (a) ${rest}`);
    expect(says('a')).toBe(`Step a ${rest}`);
    expect(says('long '.repeat(40))).toBe(`Step ${'long '.repeat(16).trimEnd()}… (a) ${rest}`);
  });
});

describe('a step', () => {
  const stack = { a: ['rt', 's10'], b: ['rt', 's10'] };

  it('uses what its role has packed', () => {
    const [missing, ...more] = problems({ steps: [turn('a', 'loosen')], outings: [bag([line('rt')], stack)] });
    expect(more).toEqual([]);
    expect(missing).toMatchObject({ rule: 'not-packed', id: 's10', kind: 'tool', quantity: 1, step: 'a' });
    expect(missing?.mends[0]?.says).toBe('Pack 1 × s10 in B.');
  });

  it('does not use what another has in hand at the same time', () => {
    const steps = [
      turn('a', 'loosen', { slot: 'x', minutes: 5 }),
      { ...turn('b', 'loosen', { slot: 'x', minutes: 5 }), role: 'Second' },
    ];
    const twice = problems({ steps, outings: [bag([line('rt', 'C'), line('s10', 'C', 2)], stack)] });
    expect(twice).toMatchObject([{ rule: 'used-twice', id: 'rt', quantity: 1, step: 'b', role: 'Second' }]);
    expect(twice[0]?.mends.map(({ how }) => how)).toEqual(['apart', 'piece']);
  });

  it('stands after those it must come after', () => {
    expect(told({ steps: [step('a', 'Lead', { after: ['b'] }), step('b', 'Lead')] })).toEqual([
      'out-of-order 1 step b a',
    ]);
  });

  it('finds at a place what an earlier one brought, or is told which could bring it', () => {
    const fetch = { id: 'unit', quantity: 1, from: 'tray', to: 'mount' };
    const steps = [
      step('a', 'Lead', { moves: [fetch] }),
      step('b', 'Lead', { moves: [{ id: 'unit', quantity: 1, from: 'bag', to: 'tray' }] }),
    ];
    const [missing, left] = problems({ steps, outings: [bag([line('unit', 'C')])] });
    expect(missing).toMatchObject({
      rule: 'not-there',
      step: 'a',
      place: 'tray',
      mends: [{ how: 'reorder', step: 'b' }],
    });
    expect(left).toMatchObject({ rule: 'left-behind', step: 'b', place: 'tray' });
  });
});

describe('a role', () => {
  const outings = [bag([line('unit', 'B'), line('rt', 'B')])];
  const asked = (mass: string): Asked => ({
    steps: [step('a', 'Lead', { gear: [{ id: 'unit', quantity: 1 }] })],
    outings,
    outing: { carryMax: [{ role: 'Lead', mass }] },
  });

  it('carries its own bags with what is in them, and no more than its limit', () => {
    expect(told(asked('1.2 kg'))).toEqual([]);
    const [over] = problems(asked('1.15 kg'));
    expect(over).toMatchObject({ rule: 'over-carry', role: 'Lead', step: null, mends: [{ how: 'lighten' }] });
    expect(over?.quantity).toBeCloseTo(0.05, 12);
  });
});
