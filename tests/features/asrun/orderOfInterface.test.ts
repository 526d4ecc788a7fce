/** The order that an interface is tightened in, as records are judged by it: whose it is, which positions are meant. */
import { expect, it } from 'vitest';
import type { CalloutList, KeptCallout } from '../../../shared-types/records/judgedLists.ts';
import type { Interface } from '../../../shared-types/records/site.ts';
import type { TaskStep } from '../../../shared-types/records/task.ts';
import { JudgedRecords } from '../../../renderer/engine/inspection/index.ts';
import { besideOf } from '../../../renderer/features/asrun/useBeside.ts';
import { orderOfCallout } from '../../../renderer/features/judged/orderOfCallout.ts';

const flange: Interface = {
  ...{ id: 'i-1', rev: 1, site: 'mast', code: 'B', kind: 'fastener', count: 4, pattern: 'circle 100 mm' },
  order: ['1', '3', '2', '4'],
};
const step = (more: Partial<TaskStep>): TaskStep => ({
  ...{ id: 's-1', rev: 1, task: 't', position: 0, outing: 'o', role: 'r', action: 'tighten', code: 'b3' },
  interface: 'i-1',
  ...more,
});
const knownWith = (more: Partial<TaskStep> = {}, one: Interface = flange) => ({
  ...{ site: 'mast', interfaces: new Map([[one.id, one]]), steps: [step(more)] },
});

it.each<[string, Partial<TaskStep>, Record<string, string>, string | null]>([
  ['all its positions', {}, { id: 'b3' }, '1 3 2 4'],
  ['those of the step alone', { positions: '1-2, 4' }, { id: 'b3' }, '1 2 4'],
  ['none, where the step names what is no position', { positions: 'the upper two' }, { id: 'b3' }, null],
  ['none, where nothing is named', {}, { id: 'x' }, null],
])('an order has %s', (_, more, cells, expected) => {
  expect(orderOfCallout(cells, knownWith(more))?.positions.join(' ') ?? null).toBe(expected);
});

it('is not taken where a name would come apart in a cell', () => {
  const named = { ...flange, count: 2, pattern: 'upper left: 0 mm, 0 mm; 2: 9 mm, 0 mm', order: ['upper left', '2'] };
  expect(orderOfCallout({ id: 'b3' }, knownWith({}, named))).toBeNull();
});

const list: CalloutList = { id: 'l-1', rev: 1, task: 't', name: 'Callouts', columns: ['id'], person: 'Invented' };
const callout = (more: Record<string, string> = {}): KeptCallout => ({
  ...{ id: 'c-1', rev: 1, list: 'l-1', position: 0 },
  cells: { id: 'b3', thread: 'M10', torqueMin: '45 N·m', torqueMax: '50 N·m', ...more },
});
const asked = ['callout', 'position', 'cycle', 'final', 'method', 'time'];
/** Tightened in the order of their numbers. */
const rows = ['1', '2', '3', '4'].map((position, at) => ({
  key: position,
  cells: {
    ...{ callout: 'b3', position, cycle: '1', final: '47 N·m', method: 'read' },
    time: `2026-04-21 09:1${at}`,
  },
}));

function judgedWith(kept: KeptCallout) {
  const columns = Object.keys(kept.cells);
  const beside = besideOf({ ...list, columns }, new Map([[kept.id, kept]]), { tools: [], known: knownWith() });
  const judged = new JudgedRecords({ columns: asked, rows, beside });
  judged.next(10);
  return judged;
}

it('finds a record out of the interface’s order, and says whose order it is', () => {
  const judged = judgedWith(callout());
  expect(judged.judged().orders).toEqual([
    { callout: 'b3', positions: ['1', '3', '2', '4'], from: 'interface B, by step b3' },
  ]);
  const found = judged.look('2')?.row?.findings.find(({ rule }) => rule === 'out-of-sequence');
  expect(found?.message).toContain('before position 3');
  expect(found?.source).toContain('that of interface B, by step b3');
});

it('leaves a callout the order it has of its own', () => {
  const judged = judgedWith(callout({ sequence: '1 2 3 4' }));
  expect(judged.judged().orders).toEqual([{ callout: 'b3', positions: ['1', '2', '3', '4'] }]);
  expect(judged.look('2')?.row?.findings.map(({ rule }) => rule)).not.toContain('out-of-sequence');
});
