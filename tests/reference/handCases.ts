/** Cases answered by hand from the rules of command `bag`: the least mass in kg, or null where nothing does. */
import type { Plan } from '../../shared-types/plan.ts';
import { extension, fastener, gear, handPlan, loosen, ratchet, socket, tighten, wrench } from './handPlan.ts';

export interface HandCase {
  says: string;
  plan: Plan;
  kg: number | null;
}

const deep = (depth: string): Plan['steps'] => [loosen({ access: { depth } })];
const within = (depth: string, clearDiameter: string): Plan['steps'] => [loosen({ access: { depth, clearDiameter } })];

/** Ratchet, socket, sack. */
const base = 0.3 + 0.1 + 0.2;

export const stackCases: HandCase[] = [
  { says: 'rule 1: a driver loosens', plan: handPlan(), kg: base },
  {
    says: 'rule 1: a torque tool that loosens does',
    plan: handPlan([loosen()], { drivers: [], torqueTools: [wrench({ loosens: true })] }),
    kg: 0.9,
  },
  {
    says: 'rule 1: a torque tool that does not say so does not loosen',
    plan: handPlan([loosen()], { drivers: [] }),
    kg: null,
  },
  { says: 'rule 1: tightening takes the torque tool', plan: handPlan([tighten()]), kg: 0.6 + 0.1 + 0.2 },
  { says: 'rule 1: a driver does not tighten', plan: handPlan([tighten()], { torqueTools: [] }), kg: null },
  {
    says: 'rule 1: 10 mm is the square 3/8 in',
    plan: handPlan([loosen()], { sockets: [socket({ drive: '10 mm' })] }),
    kg: base,
  },
  {
    says: 'rule 1: a 1/2 in socket does not meet a 3/8 in ratchet',
    plan: handPlan([loosen()], { sockets: [socket({ drive: '1/2 in' })] }),
    kg: null,
  },
  {
    says: 'rule 1: an adapter makes it meet',
    plan: handPlan([loosen()], {
      sockets: [socket({ drive: '1/2 in' })],
      extensions: [extension({ kind: 'adapter', driveOut: '12.5 mm' })],
    }),
    kg: base + 0.15,
  },
  {
    says: 'rule 1: an adapter the other way round does not',
    plan: handPlan([loosen()], {
      sockets: [socket({ drive: '1/2 in' })],
      extensions: [extension({ kind: 'adapter', driveIn: '1/2 in' })],
    }),
    kg: null,
  },
  {
    says: 'rule 1: three extensions reach 350 mm',
    plan: handPlan(deep('350 mm'), { extensions: [extension({ onHand: 4 })] }),
    kg: base + 3 * 0.15,
  },
  {
    says: 'rule 1: a fourth is not allowed',
    plan: handPlan(deep('351 mm'), { extensions: [extension({ onHand: 4 })] }),
    kg: null,
  },
  {
    says: 'rule 2: hex12 goes on a nut',
    plan: handPlan([loosen()], {
      fasteners: [fastener('nut')],
      sockets: [socket({ opening: { form: 'hex12', size: '13 mm' } })],
    }),
    kg: base,
  },
  {
    says: 'rule 2: hex6 goes on a heavy hexagon',
    plan: handPlan([loosen()], { fasteners: [fastener('heavy-hex')] }),
    kg: base,
  },
  {
    says: 'rule 2: hex6 does not go on twelve points',
    plan: handPlan([loosen()], { fasteners: [fastener('twelve-point')] }),
    kg: null,
  },
  {
    says: 'rule 2: hex12 does',
    plan: handPlan([loosen()], {
      fasteners: [fastener('twelve-point')],
      sockets: [socket({ opening: { form: 'hex12', size: '13 mm' } })],
    }),
    kg: base,
  },
  {
    says: 'rule 2: a key goes in a hex socket',
    plan: handPlan([loosen()], {
      fasteners: [fastener('hex-socket', '8 mm')],
      sockets: [socket({ opening: { form: 'hexKey', size: '8 mm' } })],
    }),
    kg: base,
  },
  {
    says: 'rule 2: a square opening does not go on a hexagon',
    plan: handPlan([loosen()], { sockets: [socket({ opening: { form: 'square', size: '13 mm' } })] }),
    kg: null,
  },
  {
    says: 'rule 2: square on square',
    plan: handPlan([loosen()], {
      fasteners: [fastener('square', '3/8 in')],
      sockets: [socket({ opening: { form: 'square', size: '9.525 mm' } })],
    }),
    kg: base,
  },
  {
    says: 'rule 2: T30 in T30',
    plan: handPlan([loosen()], {
      fasteners: [fastener('hexalobular', 'T30')],
      sockets: [socket({ opening: { form: 'hexalobular', size: 'T30' } })],
    }),
    kg: base,
  },
  {
    says: 'rule 2: T25 not in T30',
    plan: handPlan([loosen()], {
      fasteners: [fastener('hexalobular', 'T30')],
      sockets: [socket({ opening: { form: 'hexalobular', size: 'T25' } })],
    }),
    kg: null,
  },
  {
    says: 'rule 2: 0.01 mm apart is the same size',
    plan: handPlan([loosen()], { fasteners: [fastener('hex', '13.01 mm')] }),
    kg: base,
  },
  {
    says: 'rule 2: 0.011 mm apart is not',
    plan: handPlan([loosen()], { fasteners: [fastener('hex', '13.011 mm')] }),
    kg: null,
  },
  {
    says: 'rule 2: 1/2 in (12.7 mm) is not 13 mm',
    plan: handPlan([loosen()], { fasteners: [fastener('hex', '1/2 in')] }),
    kg: null,
  },
  { says: 'rule 3: 50 mm and 100 mm reach 150 mm', plan: handPlan(deep('15 cm')), kg: base + 0.15 },
  { says: 'rule 3: they do not reach 150.1 mm', plan: handPlan(deep('150.1 mm')), kg: null },
  {
    says: 'rule 3: without access there is nothing to reach',
    plan: handPlan([loosen({ access: undefined })]),
    kg: base,
  },
  { says: 'rule 4: 20 mm in a clear 20 mm', plan: handPlan(within('50 mm', '20 mm')), kg: base },
  { says: 'rule 4: 20 mm in a clear 19.9 mm', plan: handPlan(within('50 mm', '19.9 mm')), kg: null },
  { says: 'rule 4: at depth 0 nothing begins before it', plan: handPlan(within('0 mm', '1 mm')), kg: base },
  {
    says: 'rule 4: an adapter that begins at depth may be wide',
    plan: handPlan(within('50 mm', '20 mm'), {
      sockets: [socket({ drive: '1/2 in' })],
      extensions: [extension({ driveOut: '1/2 in', outsideDiameter: '30 mm' })],
    }),
    kg: base + 0.15,
  },
  {
    says: 'rule 4: one that begins 1 mm before depth may not',
    plan: handPlan(within('51 mm', '20 mm'), {
      sockets: [socket({ drive: '1/2 in' })],
      extensions: [extension({ driveOut: '1/2 in', outsideDiameter: '30 mm' })],
    }),
    kg: null,
  },
  {
    says: 'rule 4: of two extensions the wide one goes outside',
    plan: handPlan(within('150 mm', '20 mm'), {
      drivers: [ratchet({ drive: '1/2 in' })],
      extensions: [extension(), extension({ id: 'wide', driveIn: '1/2 in', outsideDiameter: '30 mm' })],
    }),
    kg: base + 0.3,
  },
  { says: 'rule 5: a ratchet of 80 N·m at 80 N·m', plan: handPlan([loosen({ demand: '80 N·m' })]), kg: base },
  { says: 'rule 5: a ratchet of 80 N·m at 80.1 N·m', plan: handPlan([loosen({ demand: '80.1 N·m' })]), kg: null },
  {
    says: 'rule 5: a socket rated 29.5 lbf·ft (39.997 N·m) at 40 N·m',
    plan: handPlan([loosen()], { sockets: [socket({ ratedTorque: '29.5 lbf·ft' })] }),
    kg: null,
  },
  {
    says: 'rule 5: a socket rated at the demand',
    plan: handPlan([loosen()], { sockets: [socket({ ratedTorque: '40 N·m' })] }),
    kg: base,
  },
  {
    says: 'rule 5: a socket rated 1e-12 under the demand, in lbf·ft',
    plan: handPlan([loosen()], { sockets: [socket({ ratedTorque: '29.502485971 lbf·ft' })] }),
    kg: base,
  },
  {
    says: 'rule 5: an extension under the demand',
    plan: handPlan(deep('150 mm'), { extensions: [extension({ ratedTorque: '39 N·m' })] }),
    kg: null,
  },
  {
    says: 'rule 5: running torque not included adds to the demand: 22 + 3 N·m over 24',
    plan: handPlan([tighten({ running: { min: '1 N·m', max: '3 N·m' }, runningIncluded: false })], {
      sockets: [socket({ ratedTorque: '24 N·m' })],
    }),
    kg: null,
  },
  {
    says: 'rule 5: included it does not',
    plan: handPlan([tighten({ running: { min: '1 N·m', max: '3 N·m' } })], {
      sockets: [socket({ ratedTorque: '24 N·m' })],
    }),
    kg: 0.9,
  },
  {
    says: 'rule 6: 20 N·m ± 4 % exactly in 19.2 to 20.8 N·m',
    plan: handPlan([tighten({ callout: { min: '19.2 N·m', max: '20.8 N·m' } })]),
    kg: 0.9,
  },
  {
    says: 'rule 6: not in 19.21 to 20.8 N·m',
    plan: handPlan([tighten({ callout: { min: '19.21 N·m', max: '20.8 N·m' } })]),
    kg: null,
  },
  {
    says: 'rule 6: multiples of 3 N·m miss 20 N·m',
    plan: handPlan([tighten({ callout: { min: '19.2 N·m', max: '20.8 N·m' } })], {
      torqueTools: [wrench({ increment: '3 N·m' })],
    }),
    kg: null,
  },
  {
    says: 'rule 6: a list that holds 20 N·m',
    plan: handPlan([tighten()], { torqueTools: [wrench({ increment: undefined, settings: ['2000 cN·m', '40 N·m'] })] }),
    kg: 0.9,
  },
  {
    says: 'rule 6: a setting under the tool’s min is none',
    plan: handPlan([tighten()], {
      torqueTools: [wrench({ min: '21.5 N·m', increment: undefined, settings: ['20 N·m'] })],
    }),
    kg: null,
  },
  {
    says: 'rule 6: 20 N·m is 40 % of the range',
    plan: handPlan([tighten({ callout: { min: '19.2 N·m', max: '20.8 N·m' } })], {}, { rangeShareMin: 0.4 }),
    kg: 0.9,
  },
  {
    says: 'rule 6: and not 41 %',
    plan: handPlan([tighten({ callout: { min: '19.2 N·m', max: '20.8 N·m' } })], {}, { rangeShareMin: 0.41 }),
    kg: null,
  },
  {
    says: 'rule 6: running torque leaves no aim: [18 + 3, 22 + 0]',
    plan: handPlan([tighten({ running: { min: '0 N·m', max: '3 N·m' }, runningIncluded: false })]),
    kg: null,
  },
  {
    says: 'rule 7: one universal joint loosens',
    plan: handPlan(deep('150 mm'), { extensions: [extension({ kind: 'universal' })] }),
    kg: base + 0.15,
  },
  {
    says: 'rule 7: two do not',
    plan: handPlan(deep('250 mm'), { extensions: [extension({ kind: 'universal', onHand: 2 })] }),
    kg: null,
  },
  {
    says: 'rule 7: none tightens',
    plan: handPlan([tighten({ access: { depth: '150 mm' } })], { extensions: [extension({ kind: 'universal' })] }),
    kg: null,
  },
  {
    says: 'rule 13: a step of 10° in a swing of 10°',
    plan: handPlan([loosen({ access: { depth: '50 mm', swingDeg: 10 } })]),
    kg: base,
  },
  {
    says: 'rule 13: a step of 10° in a swing of 9°',
    plan: handPlan([loosen({ access: { depth: '50 mm', swingDeg: 9 } })]),
    kg: null,
  },
  {
    says: 'rule 13: hex6 without a ratchet takes 60°',
    plan: handPlan([loosen({ access: { depth: '50 mm', swingDeg: 60 } })], {
      drivers: [ratchet({ stepDeg: undefined })],
    }),
    kg: base,
  },
  {
    says: 'rule 13: and not 59°',
    plan: handPlan([loosen({ access: { depth: '50 mm', swingDeg: 59 } })], {
      drivers: [ratchet({ stepDeg: undefined })],
    }),
    kg: null,
  },
  {
    says: 'rule 13: hex12 takes 30°',
    plan: handPlan([loosen({ access: { depth: '50 mm', swingDeg: 30 } })], {
      drivers: [ratchet({ stepDeg: undefined })],
      sockets: [socket({ opening: { form: 'hex12', size: '13 mm' } })],
    }),
    kg: base,
  },
  {
    says: 'rule 13: a lever of 200 mm in 200 mm',
    plan: handPlan([loosen({ access: { depth: '50 mm', handleRadius: '200 mm' } })]),
    kg: base,
  },
  {
    says: 'rule 13: a lever of 200 mm in 199 mm',
    plan: handPlan([loosen({ access: { depth: '50 mm', handleRadius: '199 mm' } })]),
    kg: null,
  },
  {
    says: 'rule 13: a tool without lever passes',
    plan: handPlan([loosen({ access: { depth: '50 mm', handleRadius: '1 mm' } })], {
      drivers: [ratchet({ lever: undefined })],
    }),
    kg: base,
  },
  {
    says: 'rule 14: an inner depth of 20 mm over 20 mm',
    plan: handPlan([loosen({ access: { depth: '50 mm', protrusion: '20 mm' } })]),
    kg: base,
  },
  {
    says: 'rule 14: an inner depth of 20 mm over 21 mm',
    plan: handPlan([loosen({ access: { depth: '50 mm', protrusion: '21 mm' } })]),
    kg: null,
  },
  {
    says: 'rule 14: none given fails',
    plan: handPlan([loosen({ access: { depth: '50 mm', protrusion: '1 mm' } })], {
      sockets: [socket({ innerDepth: undefined })],
    }),
    kg: null,
  },
];

const hold = { hold: { fastener: 'bolt' } };
const two = { sockets: [socket({ onHand: 2 })], drivers: [ratchet({ onHand: 2 })] };
const slot = (bendA: Partial<Plan['steps'][number]> = {}): Plan['steps'] => [
  loosen({ slot: 's', ...bendA }),
  loosen({ id: 'off-2', role: 'Second', slot: 's' }),
];
const capped = (quantity: number, bend: Partial<Plan['steps'][number]> = {}): Plan['steps'][number] =>
  loosen({
    action: 'use',
    fastener: undefined,
    demand: undefined,
    access: undefined,
    gear: [{ id: 'cap', quantity }],
    ...bend,
  });
const outings = (bags: string[]): Plan['outings'] =>
  ['out', 'back'].map((id) => ({ id, roles: ['Lead', 'Second'], bags }));

export const bagCases: HandCase[] = [
  {
    says: 'rule 8: steps one after another share',
    plan: handPlan([loosen(), loosen({ id: 'off-2', role: 'Second' })]),
    kg: base,
  },
  { says: 'rule 8: roles of one slot do not', plan: handPlan(slot()), kg: null },
  { says: 'rule 8: with two of each they work at once', plan: handPlan(slot(), two), kg: 2 * 0.4 + 0.2 },
  {
    says: 'rule 8: steps of one role in a slot share',
    plan: handPlan([...slot(), loosen({ id: 'off-3', slot: 's' })], two),
    kg: 2 * 0.4 + 0.2,
  },
  {
    says: 'rule 8: the same slot name in another outing is another slot',
    plan: handPlan(
      [loosen({ slot: 's' }), loosen({ id: 'off-2', role: 'Second', slot: 's', outing: 'back' })],
      {},
      { outings: outings(['sack']) },
    ),
    kg: 2 * base,
  },
  { says: 'rule 8: nothing on hand', plan: handPlan([loosen()], { sockets: [socket({ onHand: 0 })] }), kg: null },
  {
    says: 'rule 8: the same extension twice is two pieces',
    plan: handPlan(deep('250 mm'), { extensions: [extension({ onHand: 2 })] }),
    kg: base + 0.3,
  },
  { says: 'rule 8: one on hand is no two', plan: handPlan(deep('250 mm')), kg: null },
  {
    says: 'rule 8: stock comes home between outings',
    plan: handPlan([loosen(), loosen({ id: 'again', outing: 'back' })], {}, { outings: outings(['sack']) }),
    kg: 2 * base,
  },
  {
    says: 'rule 8: gear adds up over an outing',
    plan: handPlan([capped(1), capped(2, { id: 'b' })]),
    kg: 3 * 0.02 + 0.2,
  },
  { says: 'rule 8: and no more than is on hand', plan: handPlan([capped(2), capped(2, { id: 'b' })]), kg: null },
  {
    says: 'rule 8: gear comes home',
    plan: handPlan([capped(2), capped(2, { id: 'b', outing: 'back' })], {}, { outings: outings(['sack']) }),
    kg: 2 * (0.04 + 0.2),
  },
  {
    says: 'rule 8: consumed gear does not',
    plan: handPlan(
      [capped(2), capped(2, { id: 'b', outing: 'back' })],
      { carryGear: [gear({ consumed: true })] },
      { outings: outings(['sack']) },
    ),
    kg: null,
  },
  {
    says: 'rule 8: consumed gear that suffices',
    plan: handPlan(
      [capped(2), capped(1, { id: 'b', outing: 'back' })],
      { carryGear: [gear({ consumed: true })] },
      { outings: outings(['sack']) },
    ),
    kg: 0.06 + 0.4,
  },
  {
    says: 'rule 9: massMax 400 g holds 400 g, the bag’s own 200 g not counted',
    plan: handPlan([loosen()], { bags: [{ id: 'sack', mass: '200 g', massMax: '0.4 kg' }] }),
    kg: base,
  },
  {
    says: 'rule 9: massMax 399 g does not',
    plan: handPlan([loosen()], { bags: [{ id: 'sack', mass: '200 g', massMax: '399 g' }] }),
    kg: null,
  },
  {
    says: 'rule 9: two bags where one is too small',
    plan: handPlan([loosen()], {
      bags: [
        { id: 'a', mass: '200 g', massMax: '399 g' },
        { id: 'b', mass: '50 g', massMax: '399 g' },
      ],
    }),
    kg: 0.4 + 0.25,
  },
  {
    says: 'rule 9: the lighter of two bags',
    plan: handPlan([loosen()], {
      bags: [
        { id: 'a', mass: '200 g' },
        { id: 'b', mass: '50 g' },
      ],
    }),
    kg: 0.45,
  },
  {
    says: 'rule 9: volumeMax 0.4 L',
    plan: handPlan([loosen()], { bags: [{ id: 'sack', volumeMax: '400 mL' }] }),
    kg: 0.4,
  },
  {
    says: 'rule 9: volumeMax 0.39 L',
    plan: handPlan([loosen()], { bags: [{ id: 'sack', volumeMax: '390 cm3' }] }),
    kg: null,
  },
  { says: 'rule 9: itemsMax 2', plan: handPlan([loosen()], { bags: [{ id: 'sack', itemsMax: 2 }] }), kg: 0.4 },
  { says: 'rule 9: itemsMax 1', plan: handPlan([loosen()], { bags: [{ id: 'sack', itemsMax: 1 }] }), kg: null },
  {
    says: 'rule 9: sizeMax 220 mm',
    plan: handPlan([loosen()], { bags: [{ id: 'sack', sizeMax: '220 mm' }] }),
    kg: 0.4,
  },
  {
    says: 'rule 9: sizeMax 219 mm',
    plan: handPlan([loosen()], { bags: [{ id: 'sack', sizeMax: '219 mm' }] }),
    kg: null,
  },
  {
    says: 'rule 9: without a size it passes',
    plan: handPlan([loosen()], { drivers: [ratchet({ size: undefined })], bags: [{ id: 'sack', sizeMax: '60 mm' }] }),
    kg: 0.4,
  },
  {
    says: 'rule 9: two tethers on two points',
    plan: handPlan([loosen()], { drivers: [ratchet({ tethers: 2 })], bags: [{ id: 'sack', tetherPoints: 2 }] }),
    kg: 0.4,
  },
  {
    says: 'rule 9: two tethers on one point',
    plan: handPlan([loosen()], { drivers: [ratchet({ tethers: 2 })], bags: [{ id: 'sack', tetherPoints: 1 }] }),
    kg: null,
  },
  {
    says: 'rule 9: a stack in its role’s bag',
    plan: handPlan([loosen()], { bags: [{ id: 'mine', role: 'Lead' }] }),
    kg: 0.4,
  },
  {
    says: 'rule 9: not in another role’s bag',
    plan: handPlan([loosen()], { bags: [{ id: 'theirs', role: 'Second' }] }),
    kg: null,
  },
  {
    says: 'rule 9: what both roles use one after another is taken twice where only role bags exist',
    plan: handPlan([loosen(), loosen({ id: 'off-2', role: 'Second' })], {
      ...two,
      bags: [
        { id: 'mine', role: 'Lead' },
        { id: 'theirs', role: 'Second' },
      ],
    }),
    kg: 0.8,
  },
  {
    says: 'rule 9: in a slot own bags serve first, and one shared set serves the other role',
    plan: handPlan(slot(), {
      ...two,
      bags: [
        { id: 'mine', role: 'Lead' },
        { id: 'all', massMax: '400 g' },
      ],
    }),
    kg: 0.8,
  },
  {
    says: 'rule 9: draws from the shared bag add up over the roles',
    plan: handPlan(slot(), {
      ...two,
      bags: [
        { id: 'mine', role: 'Lead', sizeMax: '100 mm' },
        { id: 'all', itemsMax: 2 },
      ],
    }),
    kg: null,
  },
  {
    says: 'rule 9: gear of the role in its bag',
    plan: handPlan([capped(1)], { bags: [{ id: 'mine', role: 'Lead' }] }),
    kg: 0.02,
  },
  {
    says: 'rule 9: not gear of another role',
    plan: handPlan([capped(1)], { bags: [{ id: 'theirs', role: 'Second' }] }),
    kg: null,
  },
  {
    says: 'rule 9: gear is judged by id, not by quantity',
    plan: handPlan([capped(2), capped(1, { id: 'b', role: 'Second' })], { bags: [{ id: 'theirs', role: 'Second' }] }),
    kg: 0.06,
  },
  { says: 'rule 11: use without gear needs nothing', plan: handPlan([capped(1, { gear: [] })]), kg: 0 },
  { says: 'rule 11: a contingency step needs its pieces', plan: handPlan([loosen({ contingency: true })]), kg: base },
  { says: 'rule 12: a hold takes its own pieces', plan: handPlan([loosen(hold)], two), kg: 0.8 + 0.2 },
  {
    says: 'rule 12: one socket cannot do both',
    plan: handPlan([loosen(hold)], { drivers: [ratchet({ onHand: 2 })] }),
    kg: null,
  },
  {
    says: 'rule 12: a torque tool never holds',
    plan: handPlan([loosen(hold)], { sockets: [socket({ onHand: 2 })], torqueTools: [wrench({ loosens: true })] }),
    kg: 0.6 + 0.3 + 0.2 + 0.2,
  },
  {
    says: 'rule 12: only torque tools, no hold',
    plan: handPlan([loosen(hold)], {
      sockets: [socket({ onHand: 2 })],
      drivers: [],
      torqueTools: [wrench({ loosens: true, onHand: 2 })],
    }),
    kg: null,
  },
  {
    says: 'rule 12: a hold of the same demand: 22 N·m',
    plan: handPlan([tighten(hold)], { sockets: [socket({ onHand: 2 })], drivers: [ratchet({ max: '22 N·m' })] }),
    kg: 0.6 + 0.3 + 0.2 + 0.2,
  },
  {
    says: 'rule 12: too weak to hold',
    plan: handPlan([tighten(hold)], { sockets: [socket({ onHand: 2 })], drivers: [ratchet({ max: '21.9 N·m' })] }),
    kg: null,
  },
  {
    says: 'rule 12: a hold may have a universal joint while the step tightens',
    plan: handPlan([tighten({ hold: { fastener: 'bolt', access: { depth: '150 mm' } } })], {
      sockets: [socket({ onHand: 2 })],
      extensions: [extension({ kind: 'universal' })],
    }),
    kg: 0.6 + 0.3 + 0.2 + 0.15 + 0.2,
  },
  {
    says: 'rule 12: a hold has its own access',
    plan: handPlan([loosen({ hold: { fastener: 'bolt', access: { depth: '151 mm' } } })], two),
    kg: null,
  },
  {
    says: 'rule 12: and its own swing',
    plan: handPlan([loosen({ hold: { fastener: 'bolt', access: { depth: '0 mm', swingDeg: 9 } } })], two),
    kg: null,
  },
  {
    says: 'rule 15: what is moved out of the bag is gear',
    plan: handPlan(
      [capped(1, { moves: [{ id: 'cap', quantity: 2, from: 'bag', to: 'foot' }] })],
      {},
      { places: [{ id: 'foot' }] },
    ),
    kg: 0.06 + 0.2,
  },
  {
    says: 'rule 15: what comes home frees nothing',
    plan: handPlan(
      [capped(3, { moves: [{ id: 'cap', quantity: 1, from: 'foot', to: 'bag' }] })],
      {},
      { places: [{ id: 'foot' }] },
    ),
    kg: 0.06 + 0.2,
  },
  {
    says: 'a fastener of another hole needs another socket',
    plan: handPlan([loosen(), loosen({ id: 'b', fastener: 'nut' })], {
      fasteners: [fastener(), fastener('nut', '10 mm', 'nut')],
      sockets: [socket(), socket({ id: 's10', opening: { form: 'hex6', size: '1 cm' }, mass: '0.25 lb' })],
    }),
    kg: base + 0.25 * 0.45359237,
  },
  { says: 'an empty bag weighs nothing', plan: handPlan([]), kg: 0 },
];
