import type { asRunColumns, asRunFurtherColumns } from '../../../shared-types/asRun.ts';
import { calloutsById, readRecord } from '../asrun/readAsRun.ts';
import { readCallouts } from '../callout/index.ts';
import { keptTable } from '../inspection/keptTable.ts';
import type { ImportColumn, ImportTarget } from './importTarget.ts';

type Name = (typeof asRunColumns)[number] | (typeof asRunFurtherColumns)[number];

const columns: Record<Name, Omit<ImportColumn, 'name'>> = {
  callout: { meaning: 'id of the callout', kind: 'text', aliases: ['callout id', 'callout no', 'id'] },
  position: {
    meaning: 'which fastener of the pattern',
    kind: 'text',
    aliases: ['pos', 'fastener', 'location', 'hole'],
  },
  cycle: { meaning: 'how often it was tightened so far, from 1', kind: 'number', aliases: ['installation', 'use'] },
  pass: { meaning: 'which pass of several', kind: 'text', aliases: ['pass no'] },
  running: {
    meaning: 'running torque measured, “3 N·m”',
    kind: 'quantity',
    unitKind: 'torque',
    aliases: ['running torque', 'prevailing torque'],
  },
  breakaway: {
    meaning: 'breakaway torque measured',
    kind: 'quantity',
    unitKind: 'torque',
    aliases: ['breakaway torque'],
  },
  final: {
    meaning: 'final torque, “48 N·m”',
    kind: 'quantity',
    unitKind: 'torque',
    aliases: ['final torque', 'torque', 'applied torque'],
  },
  method: { meaning: 'set or read: a setting is no measurement', kind: 'word', aliases: [] },
  turns: { meaning: 'turns until seated, “6.5”, “2340 deg”', kind: 'size', aliases: ['number of turns'] },
  tool: { meaning: 'torque tool used', kind: 'text', aliases: ['torque tool', 'wrench'] },
  serial: { meaning: 'its serial number', kind: 'text', aliases: ['tool serial', 'serial number', 'serial no', 's/n'] },
  temperature: { meaning: 'at the work site, “21 °C”', kind: 'text', aliases: ['temp'] },
  angle: {
    meaning: 'turn after the snug torque, “90 deg”',
    kind: 'quantity',
    unitKind: 'angle',
    aliases: ['torque turn angle', 'angle of turn'],
  },
  time: { meaning: 'when, “2026-03-08 14:30”', kind: 'time', aliases: ['date', 'date time', 'timestamp', 'when'] },
};

/** What was recorded at the work site, against the callouts it was done for. */
export const asRunTarget: ImportTarget = {
  name: 'as-run',
  words: { one: 'record', many: 'records' },
  columns: Object.entries(columns).map(([name, said]) => ({ name, ...said })),
  needed: [['callout', 'position', 'cycle', 'final']],
  key: ['callout', 'position', 'cycle', 'pass'],
  begin({ callouts }) {
    const names = [...new Set(callouts.flatMap((cells) => Object.keys(cells)))];
    const { text } = keptTable(
      names,
      callouts.map((cells) => ({ cells })),
    );
    const named = calloutsById(callouts.length === 0 ? [] : readCallouts({ content: text }).callouts);
    // The same record twice is found by its key, which is told for every table alike.
    return (row) => void readRecord(row, named, new Map());
  },
};
