/** Cases of whole bags (rules 8, 9, 11, 12 and 15) answered by hand: the least mass in kg, or null where nothing does. */
import type { Plan } from '../../shared-types/plan.ts';
import { extension, fastener, gear, handPlan, loosen, ratchet, socket, tighten, wrench } from './handPlan.ts';
import type { HandCase } from './stackCases.ts';

/** Ratchet, socket, sack. */
const base = 0.3 + 0.1 + 0.2;

const deep = (depth: string): Plan['steps'] => [loosen({ access: { depth } })];

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
