/**
 * A plan small enough to answer by hand, for the tests of the reference to bend. As it stands: loosen one 13 mm hexagon
 * 50 mm deep at 40 N·m; ratchet 300 g and socket 100 g do it, in a sack of 200 g: 0.6 kg, 2 pieces, 0.4 L.
 */
import type { Plan, PlanStep } from '../../shared-types/plan.ts';

type Catalog = Plan['catalog'];

export const socket = (bend: Partial<Catalog['sockets'][number]> = {}): Catalog['sockets'][number] => ({
  id: 'socket',
  drive: '3/8 in',
  opening: { form: 'hex6', size: '13 mm' },
  length: '50 mm',
  innerDepth: '20 mm',
  outsideDiameter: '20 mm',
  ratedTorque: '100 N·m',
  mass: '100 g',
  volume: '0.1 L',
  size: '60 mm',
  onHand: 1,
  ...bend,
});

export const extension = (bend: Partial<Catalog['extensions'][number]> = {}): Catalog['extensions'][number] => ({
  id: 'ext',
  kind: 'rigid',
  driveIn: '3/8 in',
  driveOut: '3/8 in',
  length: '100 mm',
  outsideDiameter: '16 mm',
  ratedTorque: '100 N·m',
  mass: '150 g',
  volume: '0.2 L',
  size: '110 mm',
  onHand: 1,
  ...bend,
});

export const ratchet = (bend: Partial<Catalog['drivers'][number]> = {}): Catalog['drivers'][number] => ({
  id: 'ratchet',
  drive: '3/8 in',
  max: '80 N·m',
  lever: '200 mm',
  stepDeg: 10,
  mass: '300 g',
  volume: '0.3 L',
  size: '220 mm',
  onHand: 1,
  ...bend,
});

export const wrench = (bend: Partial<Catalog['torqueTools'][number]> = {}): Catalog['torqueTools'][number] => ({
  id: 'wrench',
  drive: '3/8 in',
  min: '10 N·m',
  max: '50 N·m',
  increment: '1 N·m',
  accuracyOfReading: 0.04,
  lever: '250 mm',
  stepDeg: 10,
  mass: '600 g',
  volume: '0.6 L',
  size: '270 mm',
  onHand: 1,
  ...bend,
});

export const gear = (bend: Partial<Catalog['carryGear'][number]> = {}): Catalog['carryGear'][number] => ({
  id: 'cap',
  mass: '20 g',
  volume: '0.05 L',
  size: '30 mm',
  onHand: 3,
  ...bend,
});

export const fastener = (
  form: Catalog['fasteners'][number]['head']['form'] = 'hex',
  acrossFlats = '13 mm',
  id = 'bolt',
): Catalog['fasteners'][number] => ({ id, thread: 'M8', head: { form, acrossFlats } });

export const loosen = (bend: Partial<PlanStep> = {}): PlanStep => ({
  id: 'off',
  outing: 'out',
  role: 'Lead',
  action: 'loosen',
  fastener: 'bolt',
  demand: '40 N·m',
  access: { depth: '50 mm' },
  ...bend,
});

/** 20 N·m with 10 % either way; at 4 % the wrench may be set from 19 to 21 N·m, and 20 lies furthest inside. */
export const tighten = (bend: Partial<PlanStep> = {}): PlanStep => ({
  id: 'on',
  outing: 'out',
  role: 'Lead',
  action: 'tighten',
  fastener: 'bolt',
  callout: { min: '18 N·m', max: '22 N·m' },
  access: { depth: '50 mm' },
  ...bend,
});

export function handPlan(steps: PlanStep[] = [loosen()], bend: Partial<Catalog> = {}, more: Partial<Plan> = {}): Plan {
  return {
    catalog: {
      fasteners: [fastener()],
      sockets: [socket()],
      extensions: [extension()],
      drivers: [ratchet()],
      torqueTools: [wrench()],
      carryGear: [gear()],
      bags: [{ id: 'sack', mass: '200 g' }],
      ...bend,
    },
    outings: [{ id: 'out', roles: ['Lead', 'Second'], bags: bend.bags?.map((bag) => bag.id) ?? ['sack'] }],
    steps,
    ...more,
  };
}
