import { describe, expect, it } from 'vitest';
import type { BagItem, BagResult, BagStep, Tolerance } from '../../shared-types/bag.ts';
import type { Plan, PlanStep } from '../../shared-types/plan.ts';
import { plainAsk } from './ask.ts';
import type { Ask } from './ask.ts';
import { referenceResult } from './answer.ts';
import { extension, fastener, gear, handPlan, loosen, ratchet, socket, tighten, wrench } from './handPlan.ts';
import { judge } from './judge.ts';

/**
 * Lead tightens while Second loosens and holds, in one slot; then Second uses a cap and lays one at the foot. The
 * wrench and a socket lie in Lead's own bag or the shared one, all else in the shared one.
 */
function richPlan(): Plan {
  const steps: PlanStep[] = [
    tighten({
      slot: 's',
      access: { depth: '150 mm', clearDiameter: '20 mm', swingDeg: 10, handleRadius: '250 mm', protrusion: '20 mm' },
    }),
    loosen({ role: 'Second', slot: 's', hold: { fastener: 'bolt', access: { depth: '50 mm' } } }),
    loosen({
      id: 'use',
      role: 'Second',
      action: 'use',
      gear: [{ id: 'cap', quantity: 1 }],
      moves: [{ id: 'cap', quantity: 1, from: 'bag', to: 'foot' }],
    }),
  ];
  return handPlan(
    steps,
    {
      sockets: [socket({ onHand: 3 })],
      drivers: [ratchet({ onHand: 2 })],
      carryGear: [gear({ consumed: true, onHand: 2 })],
      bags: [
        { id: 'mine', role: 'Lead', mass: '50 g', itemsMax: 3, massMax: '850 g' },
        { id: 'all', mass: '200 g', massMax: '840 g', itemsMax: 6 },
      ],
    },
    { places: [{ id: 'foot' }] },
  );
}

const plan = richPlan();
const right = referenceResult(plan, 'mass');

function must<T>(value: T | undefined | null): T {
  if (value === undefined || value === null) throw new Error('the planted answer lacks a part');
  return value;
}

interface Planted {
  rule: string;
  says: string;
  plan?: (plan: Plan) => void;
  answer?: (result: BagResult) => void;
}

const part = {
  socket: (one: Plan) => must(one.catalog.sockets[0]),
  ext: (one: Plan) => must(one.catalog.extensions[0]),
  ratchet: (one: Plan) => must(one.catalog.drivers[0]),
  wrench: (one: Plan) => must(one.catalog.torqueTools[0]),
  mine: (one: Plan) => must(one.catalog.bags[0]),
  all: (one: Plan) => must(one.catalog.bags[1]),
};
const step = (one: Plan, id: string): PlanStep => must(one.steps.find((each) => each.id === id));
const done = (one: BagResult, id: string): BagStep => must(one.outings[0]?.steps.find((each) => each.id === id));
const line = (one: BagResult, id: string, bag: string): BagItem =>
  must(one.outings[0]?.items.find((each) => each.id === id && each.bag === bag));
const access = (one: Plan, id: string): NonNullable<PlanStep['access']> => must(step(one, id).access);

const planted: Planted[] = [
  { rule: 'tool', says: 'a ratchet tightens', answer: (r) => (done(r, 'on').stack[0] = 'ratchet') },
  {
    rule: 'tool',
    says: 'a torque tool that does not loosen loosens',
    answer: (r) => (done(r, 'off').stack[0] = 'wrench'),
  },
  { rule: 'tool', says: 'a torque tool holds', answer: (r) => (must(done(r, 'off').hold)[0] = 'wrench') },
  { rule: 'stack', says: 'a stack without a socket', answer: (r) => done(r, 'on').stack.pop() },
  { rule: 'stack', says: 'no hold where one is asked', answer: (r) => (done(r, 'off').hold = null) },
  { rule: 'stack', says: 'a stack for a use step', answer: (r) => (done(r, 'use').stack = ['ratchet', 'socket']) },
  {
    rule: 'extensions',
    says: 'four extensions',
    answer: (r) => (done(r, 'on').stack = ['wrench', 'ext', 'ext', 'ext', 'ext', 'socket']),
  },
  { rule: 'drive', says: 'squares that do not meet', plan: (p) => (part.ext(p).driveOut = '1/2 in') },
  { rule: 'opening', says: 'another size', plan: (p) => (part.socket(p).opening.size = '12 mm') },
  { rule: 'opening', says: 'another form', plan: (p) => (must(p.catalog.fasteners[0]).head.form = 'twelve-point') },
  { rule: 'reach', says: '1 mm short', plan: (p) => (access(p, 'on').depth = '151 mm') },
  { rule: 'reach', says: 'a hold 1 mm short', plan: (p) => (must(step(p, 'off').hold?.access).depth = '51 mm') },
  { rule: 'clearance', says: '0.1 mm too wide', plan: (p) => (access(p, 'on').clearDiameter = '19.9 mm') },
  { rule: 'strength', says: 'a socket too weak', plan: (p) => (part.socket(p).ratedTorque = '39.9 N·m') },
  { rule: 'strength', says: 'a ratchet too weak', plan: (p) => (part.ratchet(p).max = '39.9 N·m') },
  {
    rule: 'accuracy',
    says: 'no setting inside',
    plan: (p) => (step(p, 'on').callout = { min: '20 N·m', max: '20.5 N·m' }),
  },
  { rule: 'accuracy', says: 'no setting over the least share of the range', plan: (p) => (p.rangeShareMin = 0.5) },
  { rule: 'universal', says: 'a joint tightens', plan: (p) => (part.ext(p).kind = 'universal') },
  { rule: 'swing', says: 'steps of 10° in 9°', plan: (p) => (access(p, 'on').swingDeg = 9) },
  { rule: 'handle', says: 'a lever of 250 mm in 249 mm', plan: (p) => (access(p, 'on').handleRadius = '249 mm') },
  { rule: 'protrusion', says: '20 mm over 21 mm', plan: (p) => (access(p, 'on').protrusion = '21 mm') },
  {
    rule: 'setting',
    says: 'a setting that serves but is not the best',
    answer: (r) => (done(r, 'on').setting = { value: 19.5, unit: 'N·m' }),
  },
  { rule: 'setting', says: 'none given', answer: (r) => (done(r, 'on').setting = null) },
  { rule: 'setting', says: 'one for loosening', answer: (r) => (done(r, 'off').setting = { value: 40, unit: 'N·m' }) },
  { rule: 'onHand', says: 'more than is on hand', plan: (p) => (part.socket(p).onHand = 2) },
  { rule: 'gear', says: 'a cap too few', answer: (r) => (line(r, 'cap', 'all').quantity = 1) },
  { rule: 'consumed', says: 'a cap too many over all outings', plan: (p) => (must(p.catalog.carryGear[0]).onHand = 1) },
  { rule: 'draw', says: 'the slot lacks a socket', answer: (r) => (line(r, 'socket', 'all').quantity -= 1) },
  { rule: 'draw', says: "a stack in another role's bag", plan: (p) => (part.mine(p).role = 'Second') },
  { rule: 'bagMass', says: '1 g too heavy', plan: (p) => (part.all(p).massMax = '839 g') },
  { rule: 'bagVolume', says: 'too full', plan: (p) => (part.mine(p).volumeMax = '0.5 L') },
  { rule: 'bagItems', says: 'too many', plan: (p) => (part.mine(p).itemsMax = 2) },
  { rule: 'bagSize', says: 'too long', plan: (p) => (part.mine(p).sizeMax = '26 cm') },
  {
    rule: 'bagTethers',
    says: 'too few points',
    plan: (p) =>
      Object.assign(p.catalog, {
        torqueTools: [wrench({ tethers: 2 })],
        bags: [{ ...part.mine(p), tetherPoints: 1 }, part.all(p)],
      }),
  },
  {
    rule: 'roleContents',
    says: 'what no step of the role uses',
    answer: (r) => must(r.outings[0]).items.push({ id: 'ratchet', quantity: 1, bag: 'mine', because: ['off'] }),
  },
  { rule: 'roleContents', says: 'gear of another role', answer: (r) => (line(r, 'cap', 'all').bag = 'mine') },
  { rule: 'items', says: 'a bag of no outing', answer: (r) => (line(r, 'cap', 'all').bag = 'elsewhere') },
  { rule: 'items', says: 'half a piece', answer: (r) => (line(r, 'cap', 'all').quantity = 2.5) },
  { rule: 'items', says: 'one line twice', answer: (r) => must(r.outings[0]).items.push({ ...line(r, 'cap', 'all') }) },
  { rule: 'because', says: 'no reason', answer: (r) => (line(r, 'cap', 'all').because = []) },
  { rule: 'because', says: 'a step that does not use it', answer: (r) => line(r, 'cap', 'all').because.push('off') },
  {
    rule: 'because',
    says: 'a step that uses it is not named',
    answer: (r) => (line(r, 'wrench', 'mine').because = ['off']),
  },
  { rule: 'massKg', says: '1 g off', answer: (r) => (must(r.outings[0]).massKg += 0.001) },
  { rule: 'objective', says: 'a value of its own', answer: (r) => (must(r.objective).value *= 1 + 3e-9) },
  { rule: 'objective', says: 'another unit', answer: (r) => (must(r.objective).unit = 'L') },
  {
    rule: 'objective',
    says: 'optimal with a gap',
    answer: (r) => Object.assign(must(r.objective), { bound: must(r.objective).value / 2, gap: 0.5 }),
  },
  { rule: 'objective', says: 'none', answer: (r) => (r.objective = null) },
  { rule: 'problems', says: 'what is left behind is not said', answer: (r) => (r.problems = []) },
  { rule: 'problems', says: 'another quantity', answer: (r) => (must(r.problems[0]).quantity = 2) },
  {
    rule: 'problems',
    says: 'time is up',
    plan: (p) => ((must(p.outings[0]).minutesMax = 5), (step(p, 'on').minutes = 6)),
  },
  {
    rule: 'unchecked',
    says: 'no word of an item without size',
    plan: (p) => (
      (part.mine(p).sizeMax = '1 cm'),
      part.mine(p),
      delete part.wrench(p).size,
      delete part.ext(p).size,
      delete part.socket(p).size
    ),
  },
  { rule: 'steps', says: 'a step is missing', answer: (r) => must(r.outings[0]).steps.pop() },
  { rule: 'outings', says: 'an outing is missing', answer: (r) => (r.outings = []) },
  {
    rule: 'infeasible',
    says: 'reasons where it is feasible',
    answer: (r) => r.infeasible.push({ step: 'on', reason: 'none', closest: [] }),
  },
  { rule: 'singleLoss', says: 'said without being asked', answer: (r) => (r.singleLoss = true) },
];

describe('the judge', () => {
  it('finds nothing in a right answer', () => {
    expect(right.status).toBe('optimal');
    expect(right.outings[0]?.items.map(({ id, quantity, bag }) => `${quantity} ${id} ${bag}`)).toEqual([
      '2 cap all',
      '2 ratchet all',
      '1 wrench mine',
      '1 ext mine',
      '1 socket mine',
      '2 socket all',
    ]);
    // 600 + 150 + 3·100 + 2·300 + 2·20 g of pieces, 250 g of bags.
    expect(right.objective?.value).toBeCloseTo(1.94, 12);
    expect(judge(plan, 'mass', right)).toEqual([]);
  });

  it.each(planted)('finds, by the name of $rule: $says', ({ rule, plan: bend, answer: spoil }) => {
    const bent = structuredClone(plan);
    const spoiled = structuredClone(right);
    bend?.(bent);
    spoil?.(spoiled);
    expect(judge(bent, 'mass', spoiled).map((violation) => violation.rule)).toContain(rule);
  });
});

describe('the judge of what is asked beside the plan', () => {
  const bags = ['sack', 'net'].map((id) => ({ id, mass: '100 g' }));
  const gearStep = loosen({ id: 'use', action: 'use', gear: [{ id: 'cap', quantity: 1 }] });
  const twofold = handPlan([loosen(), gearStep], {
    sockets: [socket({ onHand: 3 })],
    drivers: [ratchet({ onHand: 3 })],
    bags,
  });
  const wishes: Partial<Ask> = {
    keep: [{ id: 'wrench', quantity: 1 }],
    forbid: [{ id: 'ext' }],
    spares: [{ id: 'cap', quantity: 1 }],
  };

  it.each<[string, string, Tolerance, (result: BagResult) => void]>([
    ['pieceLoss', 'one socket alone', 'piece', (r) => (line(r, 'socket', 'sack').quantity = 1)],
    ['bagLoss', 'both sockets in one bag', 'bag', (r) => (line(r, 'socket', 'net').bag = 'sack')],
    ['keep', 'what is to be kept is not there', 'nothing', (r) => (line(r, 'wrench', 'sack').id = 'ratchet')],
    ['onHand', 'what is forbidden is there', 'nothing', (r) => (line(r, 'wrench', 'sack').id = 'ext')],
    ['gear', 'the spare is not there', 'nothing', (r) => (line(r, 'cap', 'sack').quantity = 1)],
    ['because', 'a spare for nothing', 'piece', (r) => (line(r, 'socket', 'sack').because = [])],
    ['because', 'a spare that could not serve', 'piece', (r) => line(r, 'socket', 'sack').because.push('use')],
    ['singleLoss', 'not said', 'piece', (r) => (r.singleLoss = false)],
  ])('finds, by the name of %s: %s', (rule, _, tolerance, spoil) => {
    const ask = plainAsk('mass', { ...wishes, tolerance });
    const spoiled = referenceResult(twofold, ask);
    expect(judge(twofold, ask, spoiled)).toEqual([]);
    spoil(spoiled);
    expect(judge(twofold, ask, spoiled).map((violation) => violation.rule)).toContain(rule);
  });
});

describe('the judge of an infeasible plan', () => {
  const lost = handPlan([loosen({ access: { depth: '151 mm' } })], {
    fasteners: [fastener()],
    extensions: [extension()],
  });
  const answer = (entries: BagResult['infeasible']): BagResult => ({
    ...referenceResult(lost, 'mass'),
    infeasible: entries,
  });
  const fit = {
    stack: ['ratchet', 'ext', 'socket'],
    fails: [{ check: 'reach' as const, have: '150 mm', need: '151 mm' }],
  };

  it('takes the step at fault with a stack that fails as said', () => {
    expect(judge(lost, 'mass', answer([{ step: 'off', reason: 'too short', closest: [fit] }]))).toEqual([]);
  });

  it.each<[string, string, BagResult['infeasible']]>([
    ['infeasible', 'no reason', []],
    ['infeasible', 'the step at fault not named', [{ outing: 'out', reason: 'no', closest: [] }]],
    [
      'closest',
      'a check that it passes',
      [{ step: 'off', reason: 'no', closest: [{ ...fit, fails: [{ check: 'strength', have: '', need: '' }] }] }],
    ],
    [
      'closest',
      'a check of stock that it passes',
      [{ step: 'off', reason: 'no', closest: [{ ...fit, fails: [{ check: 'stock', have: '', need: '' }] }] }],
    ],
    ['closest', 'no stack at all', [{ step: 'off', reason: 'no', closest: [{ ...fit, stack: ['socket'] }] }]],
    ['closest', 'nothing that fails', [{ step: 'off', reason: 'no', closest: [{ ...fit, fails: [] }] }]],
  ])('finds, by the name of %s: %s', (rule, _, entries) => {
    expect(judge(lost, 'mass', answer(entries)).map((violation) => violation.rule)).toContain(rule);
  });

  it('finds an objective where there is none', () => {
    const spoiled = { ...answer([{ step: 'off', reason: 'no', closest: [] }]), objective: right.objective };
    expect(judge(lost, 'mass', spoiled).map((violation) => violation.rule)).toContain('objective');
  });
});
