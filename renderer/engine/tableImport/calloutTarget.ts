import type { CalloutColumn } from '../../../shared-types/callout.ts';
import { HeldFacts } from '../callout/heldFacts.ts';
import { readCallout } from '../callout/readCallout.ts';
import type { ImportColumn, ImportTarget } from './importTarget.ts';

type Said = Omit<ImportColumn, 'name'>;

const torque = (meaning: string, ...aliases: string[]): Said => ({
  ...{ meaning, kind: 'quantity', unitKind: 'torque', aliases },
});
const force = (meaning: string, ...aliases: string[]): Said => ({
  ...{ meaning, kind: 'quantity', unitKind: 'force', aliases },
});
const number = (meaning: string, ...aliases: string[]): Said => ({ meaning, kind: 'number', aliases });

const columns: Record<CalloutColumn, Said> = {
  id: {
    meaning: 'what the callout is called by; no two have the same',
    kind: 'text',
    aliases: ['callout', 'item', 'callout no', 'callout number', 'ref', 'reference'],
  },
  thread: { meaning: 'designation, “3/8-24 UNJF-3A”, “M10x1.5”', kind: 'size', aliases: ['thread size', 'fastener'] },
  torqueMin: torque('least torque, “45 lbf·ft”', 'min torque', 'minimum torque', 'torque minimum', 'least torque'),
  torqueMax: torque(
    'greatest torque, “50 lbf·ft”',
    'max torque',
    'maximum torque',
    'torque maximum',
    'greatest torque',
  ),
  torque: torque('middle of the band, where a tolerance goes with it', 'nominal torque', 'torque nominal'),
  tolerance: {
    meaning: 'each way from the middle, “5 N·m” or “10 %”',
    kind: 'quantity',
    unitKind: 'torque',
    aliases: ['torque tolerance', 'tol'],
  },
  torqueAlt: { meaning: 'the band in a second unit, “62-67 N·m”', kind: 'size', aliases: ['alternative torque'] },
  strength: {
    meaning: 'class or grade, “8.8”, “SAE J429 grade 5”',
    kind: 'size',
    aliases: ['strength class', 'property class', 'grade'],
  },
  head: {
    meaning: 'form of the head: hex, twelve-point, hex-socket …',
    kind: 'word',
    aliases: ['head form', 'head type'],
  },
  wrench: {
    meaning: 'size called out, “9/16 in”, “T30”',
    kind: 'size',
    aliases: ['wrench size', 'socket', 'socket size', 'width across flats', 'across flats'],
  },
  locking: {
    meaning: 'document that rules the locking feature, by number',
    kind: 'text',
    aliases: ['locking feature', 'locking document'],
  },
  runningMin: torque('least running torque', 'running torque min', 'min running torque'),
  runningMax: torque('greatest running torque', 'running torque max', 'max running torque', 'running torque'),
  breakawayMin: torque('least breakaway torque', 'breakaway torque', 'min breakaway torque', 'breakaway torque min'),
  runningIncluded: {
    meaning: 'yes or no: whether the running torque is in the torque called out',
    kind: 'word',
    aliases: ['running included', 'running torque included'],
  },
  lubrication: { meaning: 'as called out; compared with published conditions', kind: 'text', aliases: ['lubricant'] },
  nutFactor: number('K, “0.16”', 'nut factor', 'k', 'k factor'),
  frictionThread: number('coefficient in the thread, “0.12”', 'thread friction'),
  frictionBearing: number('coefficient under the head or nut', 'bearing friction', 'head friction'),
  bearingDiameter: {
    meaning: 'effective diameter under the head or nut, “15 mm”',
    kind: 'quantity',
    unitKind: 'length',
    aliases: ['bearing diameter'],
  },
  scatter: number('of preload each way, “25 %”', 'preload scatter'),
  engagement: {
    meaning: 'length of thread engaged, “12 mm”',
    kind: 'quantity',
    unitKind: 'length',
    aliases: ['thread engagement', 'engagement length'],
  },
  internalUltimate: {
    meaning: 'ultimate strength of the internal thread’s material, “310 MPa”',
    kind: 'quantity',
    unitKind: 'stress',
    aliases: ['internal ultimate'],
  },
  preloadMin: force('least preload, “20 kN”', 'min preload', 'minimum preload'),
  preloadMax: force('greatest preload, “35 kN”', 'max preload', 'maximum preload'),
  toolAccuracy: number('permissible deviation of the tool’s reading, “4 %”', 'tool accuracy', 'accuracy'),
  passes: { meaning: 'torques before the last, “20 N·m; 40 N·m”', kind: 'size', aliases: ['torque passes'] },
  angle: { meaning: 'turn after a snug torque, “90 deg”', kind: 'size', aliases: ['turn', 'torque turn angle'] },
};

/** A drawing's callouts, by the columns and the reader of the headless command. */
export const calloutTarget: ImportTarget = {
  name: 'callouts',
  words: { one: 'callout', many: 'callouts' },
  columns: Object.entries(columns).map(([name, said]) => ({ name, ...said })),
  needed: [
    ['id', 'thread', 'torqueMin', 'torqueMax'],
    ['id', 'thread', 'torque', 'tolerance'],
  ],
  key: ['id'],
  begin() {
    const facts = new HeldFacts();
    return (row) => void readCallout(row, facts, null);
  },
};
