import type { TaskStep } from '../../../shared-types/records/task.ts';

/** What is usually done to fasteners, in the order in which it is done. */
export const usualParts = [
  'loosen',
  'take-out',
  'clean',
  'lubricate',
  'start',
  'running',
  'snug',
  'pass',
  'final',
  'check',
  'stripe',
  'open',
  'look-over',
  'close',
  'closed',
] as const;

export type UsualPart = (typeof usualParts)[number];

/** On the way off, or on the way on. */
export type Way = 'off' | 'on';

interface PartSaid {
  way: Way;
  action: TaskStep['action'];
  /** Its list of positions stands for `{}`. */
  name: string;
  /** Whether it is offered to be added; the others are, too, and left out unless a person says so. */
  isUsual: boolean;
  /** What it takes for granted. */
  assumes: string;
}

/** Every part with what it takes for granted. None of it has a published source, and each says so in the step it makes. */
export const partSaid: Record<UsualPart, PartSaid> = {
  loosen: {
    ...{ way: 'off', action: 'loosen', name: 'Loosen {}', isUsual: true },
    assumes: 'All are broken loose before any is taken out.',
  },
  'take-out': {
    ...{ way: 'off', action: 'use', name: 'Take out {}', isUsual: true },
    assumes: 'Once loose they run out by hand.',
  },
  clean: {
    ...{ way: 'off', action: 'use', name: 'Clean and look over threads and seats of {}', isUsual: true },
    assumes: 'Threads and seats are clean, dry and whole before anything is put on again.',
  },
  lubricate: {
    ...{ way: 'on', action: 'use', name: 'Lubricate {} as the callout says', isUsual: false },
    assumes: 'Only what the callout names, where it names it: a torque for dry threads is none for lubricated ones.',
  },
  start: {
    ...{ way: 'on', action: 'use', name: 'Start {} by hand, two turns each', isUsual: true },
    assumes: 'One that does not turn in by hand for two turns may be crossed: it is backed off and looked at.',
  },
  running: {
    ...{ way: 'on', action: 'tighten', name: 'Measure the running torque of {}', isUsual: false },
    assumes:
      'Measured before the seat is touched; the tool is chosen as for tightening within the limits of the running torque.',
  },
  snug: {
    ...{ way: 'on', action: 'tighten', name: 'Snug {}', isUsual: false },
    assumes: 'Seats all evenly before the first pass, at the share of the callout that was typed.',
  },
  pass: {
    ...{ way: 'on', action: 'tighten', name: 'Torque {}', isUsual: true },
    assumes: 'A share is taken of the callout as it is written, of its least and its greatest torque alike.',
  },
  final: {
    ...{ way: 'on', action: 'tighten', name: 'Torque {}, final', isUsual: true },
    assumes: 'The whole callout, on every one.',
  },
  check: {
    ...{ way: 'on', action: 'tighten', name: 'Check {} at the verification torque', isUsual: false },
    assumes: 'In the way of tightening, within a band of its own that was typed.',
  },
  stripe: {
    ...{ way: 'on', action: 'use', name: 'Mark {} with a witness stripe', isUsual: true },
    assumes: 'Across fastener and part, once each is done, so that a turn back is seen.',
  },
  open: {
    ...{ way: 'off', action: 'use', name: 'Open {}', isUsual: true },
    assumes: 'By hand or with gear.',
  },
  'look-over': {
    ...{ way: 'off', action: 'use', name: 'Clean and look over {}', isUsual: true },
    assumes: 'Seals, pins and seats are clean and whole; what stays open is capped.',
  },
  close: {
    ...{ way: 'on', action: 'use', name: 'Close {}', isUsual: true },
    assumes: 'By hand or with gear.',
  },
  closed: {
    ...{ way: 'on', action: 'use', name: 'See that {} is closed and holds', isUsual: true },
    assumes: 'Looked at and pulled, after it is closed.',
  },
};

/** What stands before each assumption: nothing published says it. */
export const practiceWords = 'Common practice, no source:';
