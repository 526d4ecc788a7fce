/** What a joint's answer says it assumes and rests on: each sentence where it is true, and nowhere else. */
import { describe, expect, it } from 'vitest';
import { jointTask } from '../../../renderer/engine/preload/index.ts';
import type { JointResult } from '../../../shared-types/joint.ts';

type Given = Record<string, unknown>;

const friction = { thread: 0.12, bearing: 0.1, bearingDiameterMm: 13 };
const ways: Given[] = [
  { nutFactor: { nominal: 0.2 } },
  { nutFactor: { nominal: 0.2, min: 0.16 } },
  { nutFactor: { nominal: 0.2, max: 0.24 } },
  { nutFactor: { nominal: 0.2, min: 0.16, max: 0.24 } },
  { friction },
  { friction, form: 'screw' },
  { friction, form: 'linear' },
];
const targets: Given[] = [
  { torque: { min: '40 N·m', max: '45 N·m' } },
  { preload: '20 kN' },
  { stressShare: 0.5 },
  { yieldShare: 0.9 },
];
const spreads: Given[] = [
  {},
  { scatter: 0.1 },
  { scatter: 0.1, scatterOf: 'band' },
  { scatter: 0.1, scatterOf: 'nominal' },
];
const losses: Given[] = [
  {},
  { relaxation: { share: 0.05, form: 'divide' } },
  { relaxation: { share: 0.05, form: 'multiply' }, thermalN: 100 },
  { boltsSharing: 1, torsion: 'plastic' },
  { boltsSharing: 4, scatter: 0.1, running: { min: '1 N·m', max: '2 N·m' }, torqueIs: 'seating' },
];

const factor = (joint: Given): { min?: number; max?: number } => (joint['nutFactor'] ?? {}) as { min?: number };
const hasRange = (joint: Given): boolean => factor(joint).min !== undefined || factor(joint).max !== undefined;
const has = (joint: Given, field: string): boolean => joint[field] !== undefined;

const joints: Given[] = ways.flatMap((way) =>
  targets.flatMap((target) =>
    spreads.flatMap((spread) =>
      losses
        .map((loss) => ({ thread: 'M10', strength: '8.8', ...way, ...target, ...spread, ...loss }) as Given)
        .filter((joint) => !(hasRange(joint) && has(joint, 'scatter')))
        .filter((joint) => !has(joint, 'yieldShare') || (has(joint, 'friction') && joint['form'] !== 'screw')),
    ),
  ),
);

const linear = (joint: Given): boolean => joint['form'] === 'linear' || has(joint, 'yieldShare');
const sentences: Record<string, (joint: Given) => boolean> = {
  'The screw has one start': () => true,
  'The nut factor counts on the basic major diameter': (joint) => has(joint, 'nutFactor'),
  'dm is the basic pitch diameter d2': (joint) => has(joint, 'friction'),
  'half angle of the thread is 30°': (joint) => has(joint, 'friction'),
  'Screw equation: no "form" is given': (joint) =>
    has(joint, 'friction') && !has(joint, 'form') && !has(joint, 'yieldShare'),
  'Linear form (VDI 2230), in which a share of yield is computed': (joint) =>
    has(joint, 'yieldShare') && !has(joint, 'form'),
  'Static friction, for loosening': (joint) => has(joint, 'friction'),
  'Release torque and self-locking by the screw equation': (joint) => has(joint, 'friction') && linear(joint),
  'The least nut factor is the nominal one': (joint) =>
    has(joint, 'nutFactor') && !!factor(joint).max && !factor(joint).min,
  'The greatest nut factor is the nominal one': (joint) =>
    has(joint, 'nutFactor') && !!factor(joint).min && !factor(joint).max,
  'Scatter of the preload is taken as 0': (joint) => !has(joint, 'scatter') && !hasRange(joint),
  'the range of the nut factor widens the torque': (joint) => hasRange(joint) && !has(joint, 'torque'),
  'The scatter is of the band': (joint) => has(joint, 'scatter') && !has(joint, 'scatterOf') && has(joint, 'torque'),
  'The scatter is of the nominal preload': (joint) => joint['scatterOf'] === 'nominal',
  'is the mean of 4 bolts': (joint) => joint['boltsSharing'] === 4,
  'is the mean of 1 bolts': () => false,
  'Settling is taken as 0': (joint) => !has(joint, 'relaxation'),
  'from temperature are taken as 0': (joint) => !has(joint, 'thermalN'),
  'Running torque is taken as 0': (joint) => !has(joint, 'running'),
  'no shear and no equivalent stress': (joint) => has(joint, 'nutFactor'),
  'Torsion is elastic: none is asked for': (joint) =>
    has(joint, 'friction') && !has(joint, 'torsion') && !has(joint, 'yieldShare'),
  'Torsion is plastic, as a share of yield is computed': (joint) => has(joint, 'yieldShare') && !has(joint, 'torsion'),
  'torsion grows in the same measure as tension': (joint) => has(joint, 'friction'),
  'the section As over the whole grip': (joint) => has(joint, 'service'),
  'whole loosening torque, counted on the root diameter': (joint) => has(joint, 'stop'),
  'No section of this screw is known': () => false,
  'no dimensions of UNJ threads are held': () => false,
};

const sources: Record<string, (joint: Given) => boolean> = {
  'ISO 68-1; ISO 724; ISO 898-1': () => true,
  'T = K·D·F': (joint) => has(joint, 'nutFactor'),
  'screw equation and collar': (joint) => has(joint, 'friction') && !linear(joint),
  'tightening torque, linear form': (joint) => has(joint, 'friction') && linear(joint),
  'lowering torque and self-locking': (joint) => has(joint, 'friction'),
  'efficiency of a screw': () => true,
  'assembly state': (joint) => has(joint, 'friction'),
  'in the body of a power screw': () => false,
  'preload range, relaxation by division': (joint) =>
    has(joint, 'scatter') || has(joint, 'relaxation') || has(joint, 'thermalN'),
  'relaxation by multiplication; u/√n': (joint) =>
    (joint['relaxation'] as { form: string } | undefined)?.form === 'multiply' || joint['boltsSharing'] === 4,
  'preload as a share of yield on the stress area': (joint) => has(joint, 'stressShare'),
  'joint stiffness': (joint) => has(joint, 'service'),
  'bolt stiffness and thermal load': (joint) => has(joint, 'service'),
  'Table 3 (mechanical properties)': (joint) => has(joint, 'strength'),
};

/** The first sentence that stands where it should not, or is missing; null where each is in its place. */
function misplaced(joint: Given, { assumptions, sources: cited }: JointResult): string | null {
  const texts = cited.map(({ number, table }) => `${number}: ${table}`);
  for (const [rules, said] of [
    [sentences, assumptions],
    [sources, texts],
  ] as const) {
    for (const [part, isDue] of Object.entries(rules)) {
      const times = said.filter((text) => text.includes(part)).length;
      if (times !== (isDue(joint) ? 1 : 0)) return `"${part}" stands ${times} times for ${JSON.stringify(joint)}`;
    }
    const unknown = said.find((text) => !Object.keys(rules).some((part) => text.includes(part)));
    if (unknown !== undefined && rules === sentences) return `"${unknown}" is not known here`;
  }
  return null;
}

describe('what a joint assumes and rests on', () => {
  it(`is listed where it is so, and nowhere else, over ${joints.length} joints`, () => {
    expect(joints.length).toBeGreaterThan(300);
    expect(joints.map((joint) => misplaced(joint, jointTask(joint))).filter((fault) => fault !== null)).toEqual([]);
  });

  it('names the loads in service and the stop where they are asked for', () => {
    const service = { grip: '30 mm', boltModulus: '205 GPa', jointModulus: '205 GPa' };
    const stop = { driver: { name: 'bar', max: '60 N·m' }, parts: [{ name: 'socket', ratedTorque: '50 N·m' }] };
    for (const more of [{ service }, { stop }, { service, stop }]) {
      const joint: Given = { thread: 'M10', strength: '8.8', friction, preload: '20 kN', ...more };
      expect(misplaced(joint, jointTask(joint))).toBeNull();
    }
  });

  it('says of an inch thread whose profile it is, of UNJ that its sizes are those of UN, and cites no strength that is not given', () => {
    const inch = jointTask({ thread: '1/4-28 UNF', nutFactor: { nominal: 0.2 }, preload: '5 kN' });
    expect(inch.sources.map(({ number }) => number)).toContain('ASME B1.1');
    expect(inch.sources.map(({ number }) => number).join()).not.toContain('ISO');
    expect(inch.assumptions.join()).not.toContain('UNJ');
    const unj = jointTask({ thread: '1/4-28 UNJF', nutFactor: { nominal: 0.2 }, preload: '5 kN' });
    expect(unj.assumptions.filter((text) => text.includes('no dimensions of UNJ threads are held'))).toHaveLength(1);
  });

  it('says of another screw which section its stresses count on, or that there is none', () => {
    const screw = { meanDiameterMm: 22.5, leadMm: 5, halfAngleDeg: 14.5 };
    const power = { friction: { thread: 0.08, bearing: 0.05, bearingDiameterMm: 40 }, preload: '6 kN' };
    const bare = jointTask({ thread: screw, ...power });
    expect(bare.assumptions.join()).toContain('No section of this screw is known');
    expect(bare.assumptions.join()).not.toMatch(/one start|root diameter|Torsion|d2/);
    expect(bare.sources.map(({ table }) => table).join()).not.toMatch(/body of a power screw|ISO|assembly/);
    const rooted = jointTask({ thread: { ...screw, rootDiameterMm: 20 }, ...power });
    expect(rooted.assumptions.join()).toContain('d0 = rootDiameterMm');
    expect(rooted.assumptions.join()).not.toContain('No section');
    expect(rooted.sources.map(({ table }) => table).join()).toContain('body of a power screw');
  });
});
