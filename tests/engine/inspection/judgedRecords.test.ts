/** Records judged for the screen: the same answer as the command's, lines for every row, tools found out, patterns read. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { AsRunBeside, KnownTool, LineView } from '../../../shared-types/inspection.ts';
import { judgeAsRun } from '../../../renderer/engine/asrun/index.ts';
import { JudgedRecords, JudgedTable, knownTools, tracedState } from '../../../renderer/engine/inspection/index.ts';

const plain: LineView = {
  ...{ text: '', state: 'all', rule: null, severity: 'all', acceptance: 'all', sort: 'position', down: false },
};
const demo = (name: string): string =>
  readFileSync(new URL(`../../../data/demo/skua-rock-light-${name}.csv`, import.meta.url), 'utf8');

const calloutTable = new JudgedTable({ name: 'callouts', content: demo('callouts') });
const callouts: AsRunBeside['callouts'] = {
  columns: calloutTable.columns,
  rows: calloutTable.cells(0, calloutTable.count).map((cells) => ({ cells })),
};

function judged(tools: readonly KnownTool[], content = demo('as-run')): JudgedRecords {
  const table = new JudgedRecords({ name: 'as-run.csv', content, beside: { callouts, tools } });
  while (table.next(10).length > 0);
  return table;
}

const tools = demo('tools')
  .trim()
  .split(/\r?\n/)
  .slice(1)
  .map((line): KnownTool => {
    const [serial = '', calibrationDue = '', lastGood = '', foundOut = ''] = line.split(',');
    const days = Object.entries({ calibrationDue, lastGood, foundOut }).filter(([, day]) => day !== '');
    return { serial, ...Object.fromEntries(days) };
  });

describe('the records of a file', () => {
  const table = judged(tools);
  const answer = judgeAsRun({
    ...{ asRun: { content: demo('as-run') }, callouts: { content: demo('callouts') } },
    ...{ tools: { content: demo('tools') }, skipBad: true },
  });

  it('are judged as the command judges them', () => {
    const { summary, series, rules } = table.judged();
    expect(summary).toEqual({ ...answer.summary, unreadable: 0 });
    expect(series).toEqual(answer.series);
    const rows = table.judgedRows(0, table.count);
    expect(rows.map(({ row }) => row)).toEqual(answer.rows);
    const fired = answer.rows.flatMap(({ findings }) => findings).filter(({ rule }) => rule === 'tool-overdue').length;
    expect(fired).toBeGreaterThan(0);
    expect(rules['tool-overdue']).toBe(fired);
  });

  it('are looked at with their series and their callout', () => {
    const row = table.judgedRows(0, table.count).find(({ cells }) => cells['callout'] === 'b4-coupling');
    const look = table.look(row?.key ?? '');
    expect(look?.series?.position).toBe(row?.cells['position']);
    expect(look?.callout['locking']).toBe('MIL-DTL-45916C');
  });

  it('are ordered by what is asked for', () => {
    const found = table.order({ ...plain, text: 'b4-coupling', sort: 'breakaway' });
    const lines = table.judgedRows(0, table.count);
    expect(found.length).toBe(24);
    const breakaway = [...found].map((at) => Number.parseFloat(lines[at]?.cells['breakaway'] ?? ''));
    expect(breakaway).toEqual(breakaway.toSorted((a, b) => a - b));
  });
});

it('passes over what cannot be read, tells it with its row, and judges the others', () => {
  const table = judged(
    [],
    'callout,position,cycle,final\nb3-flange,1,1,600\nb3-flange,2,1,600 lbf·in\nnowhere,1,1,5 N·m',
  );
  const { summary, refusals } = table.judged();
  expect(summary).toEqual({ conforming: 0, nonconforming: 0, indeterminate: 1, unreadable: 2 });
  expect(refusals.map(({ row, field }) => [row, field])).toEqual([
    [2, 'final'],
    [4, 'callout'],
  ]);
});

it('judges records of a list without callouts: each is told, none is judged', () => {
  const beside = { callouts: { columns: [], rows: [] }, tools: [] };
  const rows = [{ key: 'one', cells: { callout: 'A', position: '1', cycle: '1', final: '5 N·m' } }];
  const table = new JudgedRecords({ columns: ['callout', 'position', 'cycle', 'final'], rows, beside });
  expect(table.next(5).map(({ state, key }) => [state, key])).toEqual([['unreadable', 'one']]);
  expect(table.look('one')?.refusals[0]?.field).toBe('callout');
});

describe('a tool found out of calibration', () => {
  const found: KnownTool = { serial: 'SK-034', lastGood: '2026-04-20', foundOut: '2026-05-01' };

  it('re-opens what it gave since it was last known to be right, until that is accepted', () => {
    const table = judged([found]);
    const [one] = table.judged().reopened;
    expect(one?.rows.length).toBe(4);
    const message = table.judgedRows(0, 1)[0]?.row?.findings.find(({ rule }) => rule === 'tool-found-out')?.message;
    expect(message).toContain('SK-034');
    const cells = table.cells(0, 1)[0] ?? {};
    const columns = Object.keys(cells);
    const accepted = [{ rule: 'tool-found-out', message: message ?? '' }];
    const line = (rows: { key: string; cells: typeof cells; accepted?: typeof accepted }[]) =>
      new JudgedRecords({ columns, rows, beside: { callouts, tools: [found] } }).next(1)[0];
    expect(line([{ key: 'a', cells }])).toMatchObject({ reopened: true, open: 1 });
    expect(line([{ key: 'a', cells, accepted }])).toMatchObject({ reopened: false, open: 0, accepted: 1 });
  });

  it('leaves values of its last good day, and re-opens those without a day', () => {
    expect(tracedState({ time: '2026-04-20 23:00' }, found)).toBe('kept');
    expect(tracedState({ time: '2026-04-21' }, found)).toBe('open');
    expect(tracedState({ time: 'noon' }, found)).toBe('open');
    expect(tracedState({ time: '2026-04-21' }, { serial: 'SK-034' })).toBe('not-found-out');
    expect(tracedState({}, { serial: 'SK-034', foundOut: '2026-05-01' })).toBe('open');
  });

  it('counts from the earliest good day of all that is said of it, and from none where one is not known', () => {
    const said = [
      { serial: 'T', lastGood: '2026-02-01', foundOut: '2026-03-01' },
      { serial: 'T', lastGood: '2026-01-01', foundOut: '2026-05-01' },
    ];
    const due = [{ serial: 'T', calibrationDue: '2027-01-01' }, { serial: ' T ', calibrationDue: '2026-06-01' }, {}];
    expect(knownTools(due, said)).toEqual([
      { serial: 'T', calibrationDue: '2026-06-01', lastGood: '2026-01-01', foundOut: '2026-05-01' },
    ]);
    expect(knownTools([], [...said, { serial: 'T', foundOut: '2026-04-01' }])).toEqual([
      { serial: 'T', foundOut: '2026-05-01' },
    ]);
  });
});
