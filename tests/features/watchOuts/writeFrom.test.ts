import { describe, expect, it } from 'vitest';
import { begunFrom } from '../../../renderer/features/watchOuts/writeFrom.ts';
import { tieNow, tieOffers } from '../../../renderer/features/watchOuts/ties.ts';
import type { Touchable } from '../../../renderer/features/watchOuts/ties.ts';
import { plainView, shownWatchOuts } from '../../../renderer/features/watchOuts/watchOutRows.tsx';
import type { Item } from '../../../shared-types/records/item.ts';
import type { Task, TaskStep } from '../../../shared-types/records/task.ts';
import type { WatchOut } from '../../../shared-types/records/watchOut.ts';

const byId = <R extends { id: string }>(...records: R[]) => new Map(records.map((record) => [record.id, record]));
const task: Task = { id: 'job', rev: 1, code: 'J', name: 'Job', site: 'rock', shelves: ['crew'], places: [] };
const step: TaskStep = {
  ...{ id: 's', rev: 1, task: 'job', position: 1, code: '12', outing: 'o', role: 'Lead', action: 'tighten' },
  interface: 'b',
};
const wrench: Item = {
  ...{ id: 'w', rev: 1, shelf: 'crew', code: 'TW-1', retired: false, parts: 1, kit: 'field', kind: 'torque-tool' },
  ...{ drive: '1/2 in', min: '10 N·m', max: '100 N·m', mass: '1 kg', onHand: 1, serial: 'A-7' },
};
const known: Touchable = {
  interfaces: byId({ id: 'b', rev: 1, site: 'rock', code: 'B', name: 'flange', kind: 'fastener', count: 4 } as const),
  sites: byId({ id: 'rock', rev: 1, code: 'SRL' }),
  items: byId(wrench),
  shelves: byId({ id: 'crew', rev: 1, name: 'Crew case' }),
  steps: byId(step, { ...step, id: 's2', code: '13', interface: undefined } as never as TaskStep),
  tasks: byId(task),
};
const from = (cells: Record<string, string>, callout?: Record<string, string>) =>
  begunFrom({ in: 'as-run', kind: 'as-run', task, cells, callout, record: 'r', called: 'record B, cycle 2' }, known);

describe('a watch-out learned from a record', () => {
  it('is tied to the interface the record names, or its callout, or the step', () => {
    const toB = [{ to: 'interface', interface: 'b', called: 'B of SRL' }];
    expect(from({ interface: 'B' }).ties).toEqual(toB);
    expect(from({ callout: 'C-1' }, { id: 'C-1', interface: 'flange' }).ties).toEqual(toB);
    expect(from({ step: '12' }).ties).toEqual(toB);
    expect(from({ step: '13' }).ties).toEqual([{ to: 'step', step: 's2', called: '13 of J' }]);
  });

  it('is tied to its tool where nothing says where it was, and to nothing where nothing is known', () => {
    expect(from({ callout: 'X', serial: 'A-7' }).ties).toEqual([
      { to: 'item', shelf: 'crew', code: 'TW-1', called: 'TW-1 on Crew case' },
    ]);
    expect(from({ callout: 'X', serial: 'A-8' }).ties).toEqual([]);
  });

  it('says where it was learned', () => {
    expect(from({ interface: 'B' }).learned).toEqual({
      ...{ in: 'as-run', task: 'job', record: 'r', words: 'record B, cycle 2' },
    });
  });
});

describe('what it is tied to', () => {
  it('is said under the name it has now, and under the one it had once it is gone', () => {
    const tie = { to: 'interface', interface: 'b', called: 'A of SRL' } as const;
    expect(tieNow(tie, known)).toMatchObject({ words: 'interface B of SRL', about: 'flange', gone: false });
    expect(tieNow({ ...tie, interface: 'x' }, known)).toMatchObject({ words: 'interface A of SRL', gone: true });
  });

  it('is found again by the text that offered it', () => {
    const { offers, tieOf } = tieOffers(known);
    expect(offers.map(({ code }) => code)).toEqual([
      ...['interface B of SRL', 'step 12 of J', 'step 13 of J', 'item TW-1 on Crew case'],
    ]);
    expect(tieOf(' item TW-1 on Crew case ')).toMatchObject({ to: 'item', code: 'TW-1' });
    expect(tieOf('item TW-1')).toBeUndefined();
  });
});

it('watch-outs are found by their words, what they touch and who said so; the retired only where asked for', () => {
  const one = (id: string, more: Partial<WatchOut>): WatchOut => ({
    ...{ id, rev: 1, text: `Text ${id}`, ties: [{ to: 'step', step: 's', called: '12 of J' }] },
    learned: { in: 'said', on: '2026-11-20', person: 'Q.' },
    ...more,
  });
  const records = [
    one('a', { ties: [{ to: 'interface', interface: 'b', called: 'B of SRL' }] }),
    one('b', { learned: { in: 'return', on: '2026-11-24', person: 'R. Tester' } }),
    one('c', { retired: { reason: 'new stud', person: 'Q.', at: '2026-11-26T08:00:00Z' } }),
  ];
  const ids = (change: Partial<typeof plainView>) =>
    shownWatchOuts(records, { ...plainView, ...change }, known).map(({ id }) => id);
  expect(ids({})).toEqual(['b', 'a']);
  expect(ids({ search: 'FLANGE text' })).toEqual(['a']);
  expect(ids({ search: 'tester 2026-11' })).toEqual(['b']);
  expect(ids({ to: 'step' })).toEqual(['b']);
  expect(ids({ from: 'return' })).toEqual(['b']);
  expect(ids({ state: 'retired' })).toEqual(['c']);
  expect(ids({ state: 'all' })).toHaveLength(3);
});
