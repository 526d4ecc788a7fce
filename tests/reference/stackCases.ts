/** Cases of one stack (rules 1 to 7, 13 and 14) answered by hand: the least mass in kg, or null where nothing does. */
import type { Plan } from '../../shared-types/plan.ts';
import { extension, fastener, handPlan, loosen, ratchet, socket, tighten, wrench } from './handPlan.ts';

export interface HandCase {
  says: string;
  plan: Plan;
  kg: number | null;
}

const deep = (depth: string): Plan['steps'] => [loosen({ access: { depth } })];
const within = (depth: string, clearDiameter: string): Plan['steps'] => [loosen({ access: { depth, clearDiameter } })];
const stretched = (
  depth: string,
  stretch: { to: string; clearDiameter: string },
  clearDiameter: string,
): Plan['steps'] => [loosen({ access: { depth, clearDiameter, profile: [stretch] } })];

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
    says: 'rule 4: a wide extension that comes as far in as the wide stretch goes',
    plan: handPlan(stretched('150 mm', { to: '100 mm', clearDiameter: '30 mm' }, '20 mm'), {
      extensions: [extension({ outsideDiameter: '30 mm' })],
    }),
    kg: base + 0.15,
  },
  {
    says: 'rule 4: one that comes 1 mm further may not',
    plan: handPlan(stretched('150 mm', { to: '99 mm', clearDiameter: '30 mm' }, '20 mm'), {
      extensions: [extension({ outsideDiameter: '30 mm' })],
    }),
    kg: null,
  },
  {
    says: 'rule 4: a socket passes a narrow mouth on its way in, however wide the hole is below',
    plan: handPlan(stretched('50 mm', { to: '5 mm', clearDiameter: '19 mm' }, '40 mm')),
    kg: null,
  },
  {
    says: 'rule 4: the short slim extension goes in first, so that the long wide one stays in the wide stretch',
    plan: handPlan(stretched('200 mm', { to: '100 mm', clearDiameter: '30 mm' }, '20 mm'), {
      extensions: [extension({ outsideDiameter: '30 mm' }), extension({ id: 'slim', length: '50 mm' })],
    }),
    kg: base + 0.3,
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
