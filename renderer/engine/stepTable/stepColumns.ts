import type { CellType } from '../catalog/itemColumns.ts';
import { cellForms, type CellForm } from './stepCells.ts';

/** One column of a task's steps as a table. */
export interface StepColumn {
  name: string;
  /** Where its value stands in the record. */
  path: string;
  /** A plain value, or how a value with parts is written. */
  type: CellType | CellForm;
  meaning: string;
  aliases: readonly string[];
}

const text: CellType = { is: 'text' };
const whole: CellType = { is: 'whole' };
const number: CellType = { is: 'number' };
const yesNo: CellType = { is: 'yes-no' };
const torque: CellType = { is: 'quantity', of: 'torque' };
const length: CellType = { is: 'quantity', of: 'length' };
const choice = (...values: readonly string[]): CellType => ({ is: 'choice', values });

function column(
  name: string,
  type: StepColumn['type'],
  meaning: string,
  more: { path?: string; aliases?: readonly string[] } = {},
): StepColumn {
  return { name, path: more.path ?? name, type, meaning, aliases: more.aliases ?? [] };
}

/** Depth, width, swing and room of one head, under names that begin alike. */
function accessColumns(at: string, named: (name: string) => string, whose: string): StepColumn[] {
  const path = (name: string): { path: string } => ({ path: `${at}.${name}` });
  return [
    column(named('depth'), length, `depth to ${whose}, “60 mm”`, path('depth')),
    column(named('clearDiameter'), length, `clear diameter down to ${whose}`, path('clearDiameter')),
    column(
      named('profile'),
      cellForms.profile,
      'where the hole changes its width: “20 mm: 30 mm; 45 mm: 25 mm”',
      path('profile'),
    ),
    column(named('swingDeg'), number, `free swing of the handle at ${whose} [deg]`, path('swingDeg')),
    column(named('handleRadius'), length, `room for the handle at ${whose}`, path('handleRadius')),
    column(named('protrusion'), length, `thread standing proud at ${whose}`, path('protrusion')),
  ];
}

/** Every field of a step that a person fills in, in the order of its form. */
export const stepColumns: readonly StepColumn[] = [
  column('code', text, 'what the step is called by; no two of a task have the same', {
    aliases: ['step', 'step code', 'id', 'step no', 'step number', 'no'],
  }),
  column('outing', text, 'code of the outing', { aliases: ['trip'] }),
  column('role', text, 'who does it', { aliases: ['who', 'by'] }),
  column('slot', text, 'steps of one slot and other roles run at once'),
  column('name', text, 'in words', { aliases: ['description', 'title', 'text', 'step name'] }),
  column('action', choice('tighten', 'loosen', 'use'), 'tighten, loosen or use (by hand or with gear)', {
    aliases: ['what', 'verb'],
  }),
  column('interface', text, 'code of the interface; with several sites “SITE / CODE”', { aliases: ['at', 'location'] }),
  column('positions', text, 'which of its positions, “1–6”', { aliases: ['position'] }),
  column('fastener', text, 'code of the fastener, where no interface gives it'),
  column('count', whole, 'how many', { aliases: ['quantity', 'qty'] }),
  column('calloutMin', torque, 'callout from, “40 lbf·ft”', {
    path: 'callout.min',
    aliases: ['torque min', 'min torque', 'callout from', 'torque from'],
  }),
  column('calloutMax', torque, 'callout to', {
    path: 'callout.max',
    aliases: ['torque max', 'max torque', 'callout to', 'torque to'],
  }),
  column('calloutSource', text, 'where the callout is published', { aliases: ['source'] }),
  column('passes', cellForms.passes, 'on the way to the callout: “50 %; 75 %”'),
  column('runningMin', torque, 'running torque from', { path: 'running.min', aliases: ['running torque min'] }),
  column('runningMax', torque, 'running torque to', { path: 'running.max', aliases: ['running torque max'] }),
  column('runningIncluded', yesNo, 'running torque is in the callout: yes or no'),
  column('demand', torque, 'loosening: the torque that every part must bear', { aliases: ['breakaway', 'to bear'] }),
  ...accessColumns('access', (name) => name, 'the head'),
  column('holdFastener', text, 'held against turning: code of that fastener', { path: 'hold.fastener' }),
  ...accessColumns('hold.access', (name) => `hold${name[0]?.toUpperCase() ?? ''}${name.slice(1)}`, 'what is held'),
  column('gear', cellForms.gear, 'codes of gear, “C-1 × 2; TAPE”'),
  column('moves', cellForms.moves, 'gear that changes its place, “C-1 × 2: bag > rock”'),
  column('fastenerMoves', cellForms.fastenerMoves, 'fasteners taken out or put in, “F1 × 12: site > bag”'),
  column('minutes', number, 'how long it takes [min]', { aliases: ['time', 'min', 'duration'] }),
  column('spread', cellForms.spread, 'least, likely and most minutes, “3; 5; 9”'),
  column('after', cellForms.after, 'codes of the steps it must come after, “S-1; S-2”'),
  column('safeToLeave', yesNo, 'the work may be left after it: yes or no'),
  column('contingency', yesNo, 'only if a step fails: yes or no', { aliases: ['only if it fails'] }),
  column('ifFails', text, 'code of the step that it is for', { path: 'ifFails.step', aliases: ['for step'] }),
  column('failure', choice('stuck', 'cross-threaded', 'sheared', 'lost', 'other'), 'and what went wrong there', {
    path: 'ifFails.how',
  }),
  column('watchOuts', cellForms.watchOuts, 'said before it, one a line', { aliases: ['watch-outs', 'watch out'] }),
  column('cautions', cellForms.cautions, 'one a line, “WARNING: pinch point”', { aliases: ['caution'] }),
  column('notes', text, 'notes', { aliases: ['note', 'remarks', 'remark', 'comment'] }),
];
