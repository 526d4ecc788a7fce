import type { JointInput, JointSource } from '../../../shared-types/joint.ts';
import type { Strength } from '../strength/index.ts';
import type { Thread } from '../thread/index.ts';

const textbook = {
  title: 'Mechanical engineering design textbook',
  number: 'chapter 8',
  edition: '8th and 9th ed.',
  publisher: 'university textbook',
  obtained: 'text found',
} as const;

const tm106943 = {
  title: 'Installation Torque Tables for Noncritical Applications',
  number: 'NASA TM-106943',
  edition: '1995',
  publisher: 'NASA',
  obtained: 'text found',
} as const;

const vdi2230 = {
  title: 'Systematic calculation of high duty bolted joints',
  number: 'VDI 2230 part 1',
  edition: '2001 and 2003, as reproduced',
  publisher: 'VDI',
  obtained: 'text found',
} as const;

const profile = {
  metric: {
    title: 'ISO general purpose screw threads: basic profile and basic dimensions; stress area',
    number: 'ISO 68-1; ISO 724; ISO 898-1',
    edition: '1998; 1993; 1999 and 2013',
    table: 'd2 = d − 0.64951905 P; As = π/4·((d2 + d3)/2)²',
    publisher: 'ISO',
    obtained: 'text found',
  },
  unified: {
    title: 'Unified inch screw threads',
    number: 'ASME B1.1',
    edition: 'series unchanged between editions',
    table: 'd2 = D − 0.64951905/n; At = π/4·(D − 0.9743/n)²',
    publisher: 'ASME',
    obtained: 'text found',
  },
} as const satisfies Record<Thread['system'], JointSource>;

const nutFactor: JointSource = { ...textbook, table: 'T = K·D·F (eq. 8-27)' };
const screw: JointSource = { ...textbook, table: 'screw equation and collar (eq. 8-1, 8-5, 8-6)' };
const release: JointSource = { ...textbook, table: 'lowering torque and self-locking (eq. 8-2, 8-3)' };
const efficiency: JointSource = { ...textbook, table: 'efficiency of a screw (eq. 8-4)' };
const bodyStress: JointSource = {
  ...textbook,
  table: 'stresses in the body of a power screw, on its root (eq. 8-7, 8-8)',
};
const service: JointSource = { ...textbook, table: 'joint stiffness (eq. 8-20 to 8-22) and load in service' };
const linear: JointSource = { ...vdi2230, table: 'tightening torque, linear form' };
const assembly: JointSource = { ...vdi2230, table: 'assembly state: tension with torsion, share of yield' };
const range: JointSource = { ...tm106943, table: 'preload range, relaxation by division' };
const stressShare: JointSource = { ...tm106943, table: 'preload as a share of yield on the stress area' };
const thermal: JointSource = { ...tm106943, table: 'bolt stiffness and thermal load' };
const multiplied: JointSource = {
  title: 'Requirements for threaded fastening systems in spaceflight hardware',
  number: 'NASA-STD-5020',
  edition: '2012, 2018, 2021',
  table: 'preload range, relaxation by multiplication; u/√n',
  publisher: 'NASA',
  obtained: 'from memory',
};

/** The documents of every formula and value that went into a joint's numbers, each once. */
export function sourcesOf(x: { input: JointInput; thread: Thread | null; strength: Strength | null }): JointSource[] {
  const { input, thread, strength } = x;
  const isLinear = input.form === 'linear' || input.yieldShare !== undefined;
  const hasFriction = input.friction !== undefined;
  const hasRoot = typeof input.thread !== 'string' && input.thread.rootDiameterMm !== undefined;
  const isSpread = [input.scatter, input.relaxation, input.thermalN].some((given) => given !== undefined);
  const isMultiplied = input.relaxation?.form === 'multiply' || (input.boltsSharing ?? 1) > 1;
  return [
    ...(thread === null ? [] : [profile[thread.system]]),
    ...(hasFriction ? [isLinear ? linear : screw, release] : [nutFactor]),
    efficiency,
    ...(hasFriction && thread !== null ? [assembly] : []),
    ...(hasRoot ? [bodyStress] : []),
    ...(isSpread ? [range] : []),
    ...(isMultiplied ? [multiplied] : []),
    ...(input.stressShare === undefined ? [] : [stressShare]),
    ...(input.service === undefined ? [] : [service, thermal]),
    ...(strength?.sources ?? []).map(({ key: _key, ...source }) => source),
  ];
}
