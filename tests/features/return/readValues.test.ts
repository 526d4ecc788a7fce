import { describe, expect, it } from 'vitest';
import type { AsRunList, CalloutList, KeptAsRun, KeptCallout } from '../../../shared-types/records/judgedLists.ts';
import { readAsRun } from '../../../renderer/engine/asrun/readAsRun.ts';
import { readCallouts } from '../../../renderer/engine/callout/index.ts';
import { freeze, readFrozen } from '../../../renderer/engine/frozen/index.ts';
import { stepsAsCallouts } from '../../../renderer/features/findings/stepCells.ts';
import {
  keepValuesAct,
  readListName,
  torquedSteps,
  valueFaults,
  valueKey,
} from '../../../renderer/features/return/readValues.ts';
import type { ReadValue, ToKeepValues } from '../../../renderer/features/return/readValues.ts';
import { keptTask } from '../../engine/records/keptTask.ts';
import { stateOf } from '../../support/frozenTask.ts';
import { smallPlan } from '../../support/smallPlan.ts';

const { records } = keptTask(smallPlan());
const state = await stateOf(records);
const frozen = readFrozen({ number: 3, content: freeze(state) });
const steps = torquedSteps(frozen, 'O1');
const asCallouts = stepsAsCallouts(records.steps, { stock: records.items, sites: { interfaces: new Map() } });
const read = (running: string, breakaway: string, final: string): ReadValue => ({ running, breakaway, final });

interface Kept {
  asRunLists: AsRunList[];
  calloutLists: CalloutList[];
  asRuns: KeptAsRun[];
  callouts: KeptCallout[];
}
const none: Kept = { asRunLists: [], calloutLists: [], asRuns: [], callouts: [] };
let key = 0;

/** What is kept after the act. */
function kept(before: Kept, values: ToKeepValues['values'], more: Partial<ToKeepValues> = {}): Kept {
  const act = keepValuesAct({
    ...{ task: 'job', person: 'Ann', outing: 'O1', revision: 3, time: '2026-11-26 14:00', steps, values, ...before },
    ...{ taskSteps: records.steps, asCallouts, newId: () => `k${(key += 1)}` },
    ...more,
  });
  if (act === null) throw new Error('nothing was read');
  const put = <R extends { id: string }>(table: string, old: readonly R[]): R[] => [
    ...new Map([
      ...old.map((one): [string, R] => [one.id, one]),
      ...act.proposals.flatMap((one): [string, R][] =>
        one.table === table && 'put' in one ? [[one.put.id, one.put as unknown as R]] : [],
      ),
    ]).values(),
  ];
  return {
    asRunLists: put('asRunLists', before.asRunLists),
    calloutLists: put('calloutLists', before.calloutLists),
    asRuns: put('asRuns', before.asRuns),
    callouts: put('callouts', before.callouts),
  };
}

describe('values read at the work site', () => {
  it('are asked of every step that tightens by a torque, with its tool and callout as they were frozen', () => {
    expect(steps).toMatchObject([{ code: 'tighten', tool: 'TT-2', contingency: false }]);
    expect(steps[0]?.positions.length).toBeGreaterThan(0);
    expect(torquedSteps(frozen, 'none')).toEqual([]);
  });

  it('are kept as rows that the record judges, with a callout of the step where no list has one, cycle after cycle', () => {
    const place = steps[0]?.positions[0] ?? '';
    const first = kept(none, new Map([[valueKey('tighten', place), read('2 lbf·ft', '', '34 lbf·ft')]]));
    expect(first.asRunLists).toMatchObject([{ name: readListName, task: 'job', callouts: first.calloutLists[0]?.id }]);
    expect(first.callouts).toHaveLength(1);
    expect(first.asRuns.map(({ cells }) => cells)).toEqual([
      expect.objectContaining({
        ...{ callout: 'tighten', position: place, cycle: '1', running: '2 lbf·ft', final: '34 lbf·ft', method: 'read' },
        ...{ tool: 'TT-2', time: '2026-11-26 14:00', outing: 'O1, revision 3' },
      }),
    ]);
    expect(first.asRuns[0]?.cells).not.toHaveProperty('breakaway');
    const second = kept(first, new Map([[valueKey('tighten', place), read('', '1 lbf·ft', '35 lbf·ft')]]));
    expect([second.asRunLists.length, second.calloutLists.length, second.callouts.length]).toEqual([1, 1, 1]);
    expect(second.asRuns.map(({ cells }) => cells['cycle'])).toEqual(['1', '2']);
    // The readers of the headless commands take every row of it, each with its callout.
    const [list] = second.asRunLists;
    const [callouts] = second.calloutLists;
    if (list === undefined || callouts === undefined) throw new Error('no list');
    const csv = (columns: readonly string[], rows: readonly { cells: Readonly<Record<string, string>> }[]): string =>
      [columns.join(','), ...rows.map(({ cells }) => columns.map((name) => `"${cells[name] ?? ''}"`).join(','))].join(
        '\n',
      );
    const asked = readCallouts({ content: csv(callouts.columns, second.callouts) });
    expect(asked.refusals).toEqual([]);
    const given = readAsRun({ content: csv(list.columns, second.asRuns) }, asked.callouts);
    expect(given.refusals).toEqual([]);
    expect(given.records).toMatchObject([
      { position: place, cycle: 1 },
      { position: place, cycle: 2 },
    ]);
  });

  it('go to the callout that the step was taken from, where the list has it', () => {
    const calloutLists = [
      {
        id: 'c',
        rev: 1,
        task: 'job',
        name: 'Drawing',
        columns: ['ID', 'thread', 'torqueMin', 'torqueMax'],
        person: 'Q',
      },
    ];
    const cells = { ID: 'C-7', thread: '3/8-24', torqueMin: '30 lbf·ft', torqueMax: '35 lbf·ft' };
    const callouts = [{ id: 'c7', rev: 1, list: 'c', position: 0, cells }];
    const taskSteps = records.steps.map((step) =>
      step.code === 'tighten' ? { ...step, calloutFrom: { kind: 'callout' as const, callout: 'c7', id: 'C-7' } } : step,
    );
    const place = steps[0]?.positions[0] ?? '';
    const values = new Map([[valueKey('tighten', place), read('', '', '34 lbf·ft')]]);
    const after = kept({ ...none, calloutLists, callouts }, values, { taskSteps });
    expect(after.callouts).toEqual(callouts);
    expect(after.calloutLists).toEqual(calloutLists);
    expect(after.asRunLists[0]?.callouts).toBe('c');
    expect(after.asRuns[0]?.cells['callout']).toBe('C-7');
  });

  it('are refused at their field without a unit, with a unit of another kind, and without the final torque', () => {
    const faults = valueFaults(
      new Map([
        ['bare', read('', '', '45')],
        ['kind', read('', '2 mm', '45 lbf·ft')],
        ['half', read('2 lbf·ft', '', '')],
        ['whole', read('2 lbf·ft', '', '45 lbf·ft')],
        ['empty', read('', '', '')],
      ]),
    );
    expect([...faults.keys()]).toEqual(['bare', 'kind', 'half']);
    expect(faults.get('half')).toEqual({ final: 'The final torque is missing.' });
    expect(faults.get('kind')?.breakaway).toMatch(/mm/);
  });

  it('that are none make no act', () => {
    expect(
      keepValuesAct({
        ...{ task: 'job', person: '', outing: 'O1', revision: 3, time: '', steps, values: new Map(), ...none },
        ...{ taskSteps: records.steps, asCallouts, newId: () => 'k' },
      }),
    ).toBeNull();
  });
});
