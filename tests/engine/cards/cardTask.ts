/** An invented task with one step of each kind that a card must say, and an answer to it. */
import type { BagResult } from '../../../shared-types/bag.ts';
import type { Interface } from '../../../shared-types/records/site.ts';
import type { TaskStep } from '../../../shared-types/records/task.ts';
import { stepFacts } from '../../../renderer/engine/cards/index.ts';
import { planFrom } from '../../../renderer/engine/plan/readPlan.ts';
import type { UnitsShown } from '../../../renderer/engine/units/index.ts';

export interface CardCase {
  /** Of the thread that is tightened. */
  hand?: 'right' | 'left';
  mirrored?: boolean;
  order?: string[] | undefined;
  pattern?: string | undefined;
  passes?: string[];
  count?: number;
  /** Added to the first step. */
  watchOuts?: string[];
  taskName?: string;
  stepName?: string;
  /** Whether the deep step is one of the plan. */
  deep?: boolean;
  units?: UnitsShown;
}

const tool = { drive: '3/8 in', mass: '1 kg', onHand: 2 };

export function cardPlan(wanted: CardCase) {
  const { hand = 'right', count = 12, watchOuts = [], taskName = 'Azimuth drive change', deep = true } = wanted;
  const tighten = {
    outing: 'o1',
    role: 'Lead',
    action: 'tighten',
    fastener: 'B',
    count,
    access: { depth: '2 in', clearDiameter: '1 in', swingDeg: 63 },
  };
  return planFrom({
    task: { id: 'SR-01', name: taskName, site: 'Skua Rock' },
    catalog: {
      fasteners: [
        {
          id: 'B',
          name: 'Flange bolt',
          thread: `3/8-24 UNF-3A${hand === 'left' ? ' LH' : ''}`,
          head: { form: 'hex', acrossFlats: '9/16 in' },
          locking: 'MIL-DTL-45916C',
          threadRun: '0.75 in',
        },
      ],
      sockets: [
        {
          ...tool,
          id: 'S',
          name: 'Socket 9/16 in',
          opening: { form: 'hex6', size: '9/16 in' },
          length: '2.1 in',
          outsideDiameter: '0.8 in',
          ratedTorque: '60 lbf·ft',
        },
      ],
      drivers: [{ ...tool, id: 'R', name: 'Ratchet', max: '75 lbf·ft', lever: '200 mm', stepDeg: 5 }],
      torqueTools: [
        {
          ...tool,
          id: 'T',
          name: 'Torque tool',
          min: '10 N·m',
          max: '100 N·m',
          increment: '1 N·m',
          accuracyOfReading: 0.04,
          lever: '300 mm',
          stepDeg: 5,
        },
      ],
      carryGear: [{ id: 'C', name: 'Sealing cap', mass: '46 g', onHand: 9 }],
      bags: [{ id: 'L', name: 'Lead’s bag' }],
    },
    places: [{ id: 'foot', name: 'mast foot' }],
    outings: [{ id: 'o1', name: 'outing 1', roles: ['Lead', 'Base'], bags: ['L'] }],
    steps: [
      {
        ...tighten,
        id: 'final',
        name: wanted.stepName ?? 'Torque the flange',
        callout: { min: '30 lbf·ft', max: '35 lbf·ft' },
        calloutSource: 'Drawing 4 (invented)',
        running: { min: '10 lbf·in', max: '14 lbf·in' },
        runningIncluded: false,
        minutes: 20,
        cautions: [
          { word: 'NOTICE', text: 'Paint scratches: keep the socket clean.' },
          { word: 'WARNING', text: 'Stored load: the arm swings when free. Stand clear.' },
        ],
        watchOuts: ['S-18T looks the same from the drive end.', ...watchOuts],
      },
      {
        id: 'release',
        name: 'Release the lid',
        outing: 'o1',
        role: 'Lead',
        action: 'loosen',
        fastener: 'B',
        count: 4,
        demand: '42 lbf·ft',
        minutes: 6,
        fastenerMoves: [{ id: 'B', quantity: 4, washers: 0, from: 'site', to: 'foot' }],
      },
      {
        id: 'use',
        name: 'Cap the line',
        outing: 'o1',
        role: 'Lead',
        action: 'use',
        gear: [{ id: 'C', quantity: 2 }],
        moves: [{ id: 'C', quantity: 1, from: 'bag', to: 'foot' }],
      },
      { id: 'lower', name: 'Lower it', outing: 'o1', role: 'Base', action: 'use', minutes: 9 },
      ...(deep
        ? [
            {
              ...tighten,
              id: 'deep',
              name: 'Torque the deep one',
              role: 'Base',
              count: 1,
              access: { depth: '9 in', clearDiameter: '1 in' },
              callout: { min: '30 lbf·ft', max: '35 lbf·ft' },
            },
          ]
        : []),
    ],
  });
}

export const cardAnswer: BagResult = {
  status: 'infeasible',
  objective: null,
  outings: [
    {
      id: 'o1',
      massKg: 3,
      items: ['T', 'R', 'S', 'C'].map((id) => ({ id, quantity: 1, bag: 'L', because: ['final'] })),
      steps: [
        { id: 'final', stack: ['T', 'S'], hold: null, setting: { value: 45, unit: 'N·m' }, turns: 18, strokes: 108 },
        { id: 'release', stack: ['R', 'S'], hold: null, setting: null },
        { id: 'use', stack: [], hold: null, setting: null },
        { id: 'lower', stack: [], hold: null, setting: null },
      ],
    },
  ],
  singleLoss: false,
  tolerance: 'nothing',
  wishes: { keep: [], forbid: [], spares: [] },
  unchecked: [],
  problems: [],
  infeasible: [
    {
      step: 'deep',
      reason: 'No stack of this stock reaches.',
      closest: [{ stack: ['T', 'S'], fails: [{ check: 'reach', have: '2.1 in', need: '9 in' }] }],
    },
  ],
  ignoredFields: [],
};

function cardFacts({
  mirrored = false,
  order,
  pattern = 'circle 6 in',
  passes = ['50 %', '30 lbf·ft', '100 %'],
  count = 12,
}: CardCase) {
  const at: Interface = {
    id: 'i1',
    rev: 1,
    site: 's1',
    code: 'B1',
    name: 'azimuth flange',
    kind: 'fastener',
    count,
    pattern,
    ...(mirrored ? { mirrored } : {}),
    ...(order === undefined ? {} : { order }),
  };
  const head = { rev: 1, task: 't1', position: 1, outing: 'o1', role: 'Lead' };
  const steps: TaskStep[] = [
    { ...head, id: 'k1', code: 'final', action: 'tighten', interface: 'i1', passes },
    { ...head, id: 'k2', code: 'release', action: 'loosen', interface: 'i1', positions: '1-3, 8' },
    { ...head, id: 'k3', code: 'use', action: 'use' },
  ];
  return stepFacts(steps, new Map([['i1', at]]), new Map([['use', ['Carried: the cap’s pin is loose.']]]));
}

export function cardSource(wanted: CardCase = {}) {
  return {
    plan: cardPlan(wanted),
    result: cardAnswer,
    facts: cardFacts(wanted),
    outing: 'o1',
    role: null,
    units: wanted.units ?? ('both' as const),
  };
}

/** The same with its bolt held against turning by a ratchet and a socket, in a hole so deep. */
export function heldSource(depth: string) {
  const { source } = cardPlan({ passes: [], deep: false });
  const plan = planFrom({
    ...source,
    steps: source.steps.map((step) =>
      step.id === 'final' ? { ...step, hold: { fastener: 'B', access: { depth, clearDiameter: '1 in' } } } : step,
    ),
  });
  const result = {
    ...cardAnswer,
    outings: cardAnswer.outings.map((outing) => ({
      ...outing,
      steps: outing.steps.map((step) => (step.id === 'final' ? { ...step, hold: ['R', 'S'] } : step)),
    })),
  };
  return { ...cardSource({ deep: false }), plan, result, units: 'as-written' as const };
}
