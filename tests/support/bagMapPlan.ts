/** An invented outing with two roles' bags and one of both, and an answer to it, for looking at where things lie. */
import type { BagOuting, BagResult } from '../../shared-types/bag.ts';
import { planFrom } from '../../renderer/engine/plan/readPlan.ts';

const square = { driveIn: '3/8 in', driveOut: '3/8 in', ratedTorque: '100 N·m' };
const access = { depth: '20 mm' };

export const mapSource = {
  task: { id: 'M-1', name: 'Invented: cover of a pump' },
  catalog: {
    fasteners: [{ id: 'B', name: 'Bolt', thread: 'M8x1.25', head: { form: 'hex', acrossFlats: '13 mm' } }],
    sockets: [
      {
        id: 'S-13',
        name: 'Socket 13 mm',
        drive: '3/8 in',
        opening: { form: 'hex6', size: '13 mm' },
        length: '53 mm',
        outsideDiameter: '20 mm',
        ratedTorque: '100 N·m',
        ...{ mass: '0.15 kg', volume: '0.02 L', size: '53 mm', onHand: 4 },
      },
    ],
    extensions: [
      {
        ...square,
        ...{ id: 'X-150', kind: 'rigid', length: '150 mm', outsideDiameter: '16 mm' },
        ...{ mass: '0.26 kg', volume: '0.04 L', size: '150 mm', onHand: 2 },
      },
    ],
    drivers: [
      {
        ...{ id: 'R-38', name: 'Ratchet', drive: '3/8 in', max: '100 N·m', lever: '200 mm' },
        ...{ mass: '0.3 kg', volume: '0.1 L', size: '220 mm', tethers: 1, onHand: 2 },
      },
    ],
    carryGear: [
      { id: 'T-07', name: 'Tool tether', mass: '48 g', volume: '0.05 L', size: '80 mm', tethers: 1, onHand: 9 },
      { id: 'W-10', name: 'Wipes', mass: '0.12 kg', volume: '0.3 L', onHand: 30 },
    ],
    bags: [
      {
        id: 'L',
        name: 'Lead’s bag',
        role: 'Lead',
        massMax: '2 kg',
        volumeMax: '2 L',
        sizeMax: '300 mm',
        tetherPoints: 4,
      },
      { id: 'C', name: 'Common box', massMax: '1 kg', volumeMax: '2 L', sizeMax: '250 mm', tetherPoints: 3 },
      { id: 'Z', name: 'Second’s bag', role: 'Second', volumeMax: '1 L', sizeMax: '240 mm' },
    ],
  },
  outings: [{ id: 'o', name: 'Only outing', roles: ['Lead', 'Second'], bags: ['L', 'C', 'Z'] }],
  steps: [
    {
      ...{ id: 'turn', name: 'Loosen the cover', outing: 'o', role: 'Lead', action: 'loosen', fastener: 'B', access },
      ...{ demand: '20 N·m', gear: [{ id: 'T-07', quantity: 3 }] },
    },
    {
      ...{ id: 'wipe', name: 'Wipe it', outing: 'o', role: 'Second', action: 'use' },
      gear: [{ id: 'W-10', quantity: 2 }],
    },
  ],
};

export const mapPlan = planFrom(mapSource);

export const mapOuting: BagOuting = {
  id: 'o',
  massKg: 0.3 + 0.15 + 3 * 0.048 + 2 * 0.12,
  items: [
    { id: 'R-38', quantity: 1, bag: 'L', because: ['turn'] },
    { id: 'S-13', quantity: 1, bag: 'L', because: ['turn'] },
    { id: 'T-07', quantity: 3, bag: 'C', because: ['turn'] },
    { id: 'W-10', quantity: 2, bag: 'Z', because: ['wipe'] },
  ],
  steps: [
    { id: 'turn', stack: ['R-38', 'S-13'], hold: null, setting: null },
    { id: 'wipe', stack: [], hold: null, setting: null },
  ],
};

export const mapResult: BagResult = {
  status: 'optimal',
  objective: { minimised: 'mass', value: mapOuting.massKg, unit: 'kg', bound: mapOuting.massKg, gap: 0 },
  outings: [mapOuting],
  singleLoss: false,
  tolerance: 'nothing',
  wishes: { keep: [], forbid: [], spares: [] },
  unchecked: [],
  problems: [],
  infeasible: [],
  ignoredFields: [],
};
