/** A table of callouts judged piece by piece for the screen: the same answer as the command's, and every row in it. */
import { describe, expect, it } from 'vitest';
import type { LineView } from '../../../shared-types/inspection.ts';
import { judgeCallouts } from '../../../renderer/engine/callout/index.ts';
import { JudgedTable, orderOf } from '../../../renderer/engine/inspection/index.ts';

const plain: LineView = {
  ...{ text: '', state: 'all', rule: null, severity: 'all', acceptance: 'all', sort: 'position', down: false },
};

const content = [
  'id,thread,torqueMin,torqueMax,toolAccuracy,sheet',
  'C-10,3/8-24,30 lbf·ft,35 lbf·ft,4 %,1',
  'C-9,1/4-28,90 lbf·in,75 lbf·in,,"two',
  'lines"',
  'C-2,3/8-24,30,35 lbf·ft,,3',
  'C-1,M10,45 N·m,50 N·m,4 %',
  'C-10,M10,45 N·m,50 N·m,0.4 %,5',
].join('\n');

function all(table: JudgedTable, piece = 2) {
  while (table.next(piece).length > 0);
  return table;
}

describe('a file', () => {
  const table = all(new JudgedTable({ name: 'C.csv', content }));
  const lines = table.allLines();

  it('has a line for each row, readable or not, in the file’s order', () => {
    expect(lines.map(({ id, row, state }) => [id, row, state])).toEqual([
      ['C-10', 2, 'indeterminate'],
      ['C-9', 3, 'nonconforming'],
      ['C-2', 5, 'unreadable'],
      ['', 6, 'unreadable'],
      ['C-10', 7, 'indeterminate'],
    ]);
  });

  it('is judged as the command judges it', () => {
    const command = judgeCallouts({ content, file: 'C.csv', skipBad: true });
    for (const row of command.rows) {
      const ours = table.look(`line-${row.row}`)?.row;
      expect(ours?.decision).toBe(row.decision);
      expect(ours?.computed).toEqual(row.computed);
      expect(ours?.findings.map(({ rule }) => rule)).toEqual(row.findings.map(({ rule }) => rule));
    }
    const { summary, refusals, unknownColumns } = table.judged();
    expect(summary).toEqual({ ...command.summary, unreadable: 2 });
    expect(refusals.map(({ row, field }) => [row, field])).toEqual(
      command.skipped?.map(({ row, field }) => [row, field]),
    );
    expect(unknownColumns).toEqual(['sheet']);
  });

  it('tells cells as typed, and what a tool applies in the middle of the aim', () => {
    expect(table.cells(0, 2)[1]).toEqual({
      ...{ id: 'C-9', thread: '1/4-28', torqueMin: '90 lbf·in', torqueMax: '75 lbf·in', sheet: 'two\nlines' },
    });
    const tool = lines[0]?.tool;
    expect(tool?.from).toBeCloseTo(32.5 * 0.96 * 1.3558179483, 7);
    expect(tool?.to).toBeCloseTo(32.5 * 1.04 * 1.3558179483, 7);
    expect(lines[1]?.tool).toBeNull();
  });

  it.each<[string, Partial<LineView>, string[]]>([
    ['by id, numbers as numbers', { sort: 'id' }, ['', 'C-2', 'C-9', 'C-10', 'C-10']],
    ['the other way', { sort: 'id', down: true }, ['C-10', 'C-10', 'C-9', 'C-2', '']],
    ['by torque, those without one last', { sort: 'torque', down: true }, ['C-10', 'C-10', 'C-9', 'C-2', '']],
    ['worst first', { sort: 'state' }, ['C-9', 'C-2', '', 'C-10', 'C-10']],
    ['of one decision', { state: 'nonconforming' }, ['C-9']],
    ['of one rule', { rule: 'repeated-id' }, ['C-10']],
    ['of a rule that fires with another severity', { rule: 'repeated-id', severity: 'reject' }, []],
    ['with something open', { acceptance: 'open', text: '3/8-24' }, ['C-10']],
    ['by words of any field', { text: '28 empty' }, ['C-9']],
  ])('is listed %s', (_what, view, ids) => {
    const places = orderOf(lines, { ...plain, ...view });
    expect(Array.from(places, (at) => lines[at]?.id)).toEqual(ids);
  });
});

describe('a kept list', () => {
  const columns = ['ID', 'Thread', 'torqueMin', 'torqueMax', 'note; "own"'];
  const row = (key: string, cells: Record<string, string>, more: object = {}) => ({ key, cells, ...more });

  it('is read as typed: decimal commas, headings spelled otherwise, delimiters within cells, nothing typed', () => {
    const table = all(
      new JudgedTable({
        columns,
        rows: [
          row('a', { ID: 'A;1', Thread: 'M10', torqueMin: '45,5 N·m', torqueMax: '50 N·m', 'note; "own"': 'x\n"y"' }),
          row('b', {}),
          row('c', { ID: 'C', Thread: 'M10', torqueMin: '=1+1', torqueMax: '50 N·m' }),
        ],
      }),
    );
    expect(table.allLines().map(({ key, id, row: place, state }) => [key, id, place, state])).toEqual([
      ['a', 'A;1', 1, 'indeterminate'],
      ['b', '', 2, 'unreadable'],
      ['c', 'C', 3, 'unreadable'],
    ]);
    expect(table.allLines()[0]?.minNm).toBe(45.5);
    expect(table.look('b')?.refusals).toEqual([
      { code: 'missing-field', message: 'nothing is typed in this row', row: 2 },
    ]);
    expect(table.look('c')?.refusals).toMatchObject([{ field: 'torqueMin', row: 3 }]);
  });

  it('counts what is accepted, changes no decision by it, and lets it lapse when the finding says something else', () => {
    const cells = { ID: 'A', Thread: 'M10', torqueMin: '50 N·m', torqueMax: '45 N·m' };
    const found = all(new JudgedTable({ columns, rows: [row('a', cells)] }));
    const [finding] = found.look('a')?.row?.findings ?? [];
    if (finding === undefined) throw new Error('nothing found');
    const accepted = [{ rule: finding.rule, message: finding.message }];
    const taken = all(new JudgedTable({ columns, rows: [row('a', cells, { accepted })] }));
    expect(taken.allLines()[0]).toMatchObject({ state: 'nonconforming', open: 0, accepted: 1 });
    expect(taken.judged()).toMatchObject({ open: 0, openRows: { nonconforming: 0 }, summary: { nonconforming: 1 } });
    const changed = { ...cells, torqueMin: '51 N·m' };
    const lapsed = all(new JudgedTable({ columns, rows: [row('a', changed, { accepted })] }));
    expect(lapsed.allLines()[0]).toMatchObject({ state: 'nonconforming', open: 1, accepted: 0 });
  });

  it('is refused as a whole where a column is missing', () => {
    expect(() => new JudgedTable({ columns: ['id', 'thread'], rows: [] })).toThrow(/lacks/);
  });
});
