/** An invented plan with one line of each kind, and an answer to it. */
import type { BagResult } from '../../shared-types/bag.ts';
import { planFrom } from '../../renderer/engine/plan/readPlan.ts';
import type { Manifest } from '../../renderer/features/manifest/manifest.ts';
import type { PrintRequest } from '../../renderer/features/manifest/manifestDocument.ts';
import { manifestOf } from '../../renderer/features/manifest/manifestOf.ts';

export interface Names {
  gear?: string;
  task?: string;
  outing?: string;
  note?: string;
  watchOut?: string;
  source?: string;
}

export function planOf(names: Names = {}) {
  const {
    gear = 'Sealing cap',
    task = 'Azimuth drive change',
    outing = 'outing 1',
    note = 'Invented.',
    watchOut,
    source = 'Drawing 4 (invented)',
  } = names;
  const tool = { drive: '3/8 in', mass: '1 kg', onHand: 2, notes: note };
  return planFrom({
    task: { id: 'SR-01', name: task, site: 'Skua Rock' },
    catalog: {
      fasteners: [{ id: 'B', thread: '3/8-24 UNF-3A', head: { form: 'hex', acrossFlats: '9/16 in' } }],
      sockets: [
        {
          ...tool,
          id: 'S',
          name: 'Socket',
          opening: { form: 'hex6', size: '9/16 in' },
          length: '2.1 in',
          outsideDiameter: '0.8 in',
          ratedTorque: '75 lbf·ft',
        },
      ],
      extensions: [
        {
          ...tool,
          id: 'X',
          kind: 'universal',
          driveIn: '3/8 in',
          driveOut: '3/8 in',
          length: '2 in',
          outsideDiameter: '0.8 in',
          ratedTorque: '75 lbf·ft',
        },
      ],
      drivers: [{ ...tool, id: 'R', name: 'Ratchet', max: '75 lbf·ft' }],
      torqueTools: [
        {
          ...tool,
          id: 'T',
          name: 'Torque tool',
          min: '15 lbf·ft',
          max: '75 lbf·ft',
          increment: '0.5 lbf·ft',
          accuracyOfReading: 0.04,
          loosens: true,
        },
        {
          ...tool,
          id: 'T2',
          name: 'Torque tool in N·m',
          min: '10 N·m',
          max: '100 N·m',
          increment: '1 N·m',
          accuracyOfReading: 0.04,
        },
      ],
      carryGear: [
        { id: 'C', name: gear, mass: '46 g', onHand: 9 },
        { id: 'W', name: 'Wipe', mass: '12 g', onHand: 9, consumed: true },
      ],
      bags: [{ id: 'L', name: 'Lead’s bag', mass: '0.5 kg' }],
    },
    outings: [{ id: 'o1', name: outing, roles: ['Lead'], bags: ['L'] }],
    steps: [
      {
        id: 'final',
        name: 'Torque B1–B12',
        outing: 'o1',
        role: 'Lead',
        action: 'tighten',
        fastener: 'B',
        callout: { min: '30 lbf·ft', max: '35 lbf·ft' },
        calloutSource: source,
        running: { min: '0.8 lbf·ft', max: '1.2 lbf·ft' },
        runningIncluded: false,
        ...(watchOut === undefined ? {} : { watchOuts: [watchOut] }),
      },
      {
        id: 'release',
        name: 'Release',
        outing: 'o1',
        role: 'Lead',
        action: 'loosen',
        fastener: 'B',
        demand: '42 lbf·ft',
      },
      {
        id: 'use',
        name: 'Cap it',
        outing: 'o1',
        role: 'Lead',
        action: 'use',
        gear: [
          { id: 'C', quantity: 2 },
          { id: 'W', quantity: 1 },
        ],
      },
      {
        id: 'again',
        name: 'Torque again',
        outing: 'o1',
        role: 'Lead',
        action: 'tighten',
        fastener: 'B',
        callout: { min: '30 lbf·ft', max: '35 lbf·ft' },
        running: { min: '0.8 lbf·ft', max: '6.7 lbf·ft' },
      },
    ],
  });
}

export const line = (id: string, quantity: number, because: string[]) => ({ id, quantity, bag: 'L', because });

export const answer: BagResult = {
  status: 'optimal',
  objective: { minimised: 'mass', value: 5.704, unit: 'kg', bound: 5.704, gap: 0 },
  outings: [
    {
      id: 'o1',
      massKg: 5.604,
      items: [
        line('T', 1, ['final', 'release']),
        line('T2', 1, ['again']),
        line('S', 1, ['final', 'release', 'again']),
        line('X', 1, ['release']),
        line('R', 1, ['release']),
        line('C', 2, ['use']),
        line('W', 1, ['use']),
      ],
      steps: [
        { id: 'final', stack: ['T', 'S'], hold: null, setting: { value: 33.5, unit: 'lbf·ft' } },
        { id: 'release', stack: ['R', 'X', 'S'], hold: null, setting: null },
        { id: 'use', stack: [], hold: null, setting: null },
        { id: 'again', stack: ['T2', 'S'], hold: null, setting: { value: 44, unit: 'N·m' } },
      ],
    },
  ],
  singleLoss: false,
  tolerance: 'nothing',
  wishes: { keep: [], forbid: [], spares: [] },
  unchecked: [{ rule: 'swingDeg', steps: ['final'] }],
  problems: [{ rule: 'left-behind', outing: 'o1', step: 'use', id: 'C', quantity: 2, place: 'foot' }],
  infeasible: [],
  ignoredFields: ['catalog.sockets[0].colour'],
};

export const request = (names: Names = {}, change: Partial<PrintRequest> = {}): PrintRequest => ({
  plan: planOf(names),
  result: answer,
  outing: 'o1',
  units: 'both',
  fileName: 'plan.json',
  paper: 'A4',
  dataTime: '2026-11-25T10:42:00+01:00',
  appVersion: '0.1.0',
  person: 'I. Maro',
  fonts: [],
  ...change,
});

export function sheet(change: Partial<PrintRequest> = {}): Manifest {
  const made = manifestOf(request({}, change));
  if (!('rows' in made)) throw new Error(made.why);
  return made;
}

export function textOf(source: string): string {
  return (new DOMParser().parseFromString(source, 'text/html').body.textContent ?? '').replace(/\s+/g, ' ');
}
