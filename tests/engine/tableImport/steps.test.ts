/** Steps of a task as a table: every field comes back as it was; what cannot be one is said at its cell. */
import { describe, expect, it } from 'vitest';
import type { TaskStep } from '../../../shared-types/records/task.ts';
import { stepRecord } from '../../../shared-types/records/task.ts';
import { csvGrid } from '../../../renderer/engine/sheet/csvGrid.ts';
import { csvText, exactCsvText } from '../../../renderer/engine/sheet/csvText.ts';
import { openWorkbook, workbookBytes } from '../../../renderer/engine/sheet/xlsx/index.ts';
import type { Grid } from '../../../renderer/engine/sheet/grid.ts';
import { cellsOfStep, stepColumns, stepOfCells } from '../../../renderer/engine/stepTable/index.ts';
import { DryRun, guessMapping, importTargets, type KeptRow } from '../../../renderer/engine/tableImport/index.ts';

const names = {
  outings: [
    { code: '1', roles: ['Lead', 'Second'] },
    { code: '2', roles: ['Base'] },
  ],
  interfaces: [{ id: 'if-a', named: 'A' }],
};
const head = { id: 'key', rev: 4, task: 't', position: 7 };
const full: TaskStep = {
  ...head,
  ...{ code: 'S-1', outing: '1', role: 'Lead', slot: 'm', name: 'Torque, “final”; all', action: 'tighten' },
  ...{ interface: 'if-a', positions: '1–6, upper', fastener: 'F1', count: 6 },
  ...{
    callout: { min: '40 lbf·ft', max: '45.5 lbf·ft' },
    calloutSource: 'Drawing 7, note 3',
    passes: ['50 %', '30 lbf·ft'],
  },
  ...{ running: { min: '1 N·m', max: '2 N·m' }, runningIncluded: false, demand: '60 lbf·ft' },
  access: {
    ...{ depth: '2 in', clearDiameter: '1 in', swingDeg: 40.5, handleRadius: '8 in', protrusion: '0.25 in' },
    profile: [
      { to: '0.5 in', clearDiameter: '2 in' },
      { to: '1 in', clearDiameter: '1.5 in' },
    ],
  },
  hold: { fastener: 'N1', access: { depth: '3 mm', swingDeg: 60 } },
  gear: [
    { id: 'C-1', quantity: 2 },
    { id: 'odd; code × 2: "x"', quantity: 1 },
  ],
  moves: [{ id: 'C-1', quantity: 1, from: 'bag', to: 'the > rock' }],
  fastenerMoves: [
    { id: 'F1', quantity: 6, washers: 6, from: 'site', to: 'bag' },
    { id: 'F1', quantity: 1, from: 'bag' },
  ],
  ...{ minutes: 12.5, spread: { least: 10, likely: 12.5, most: 20 }, safeToLeave: true, after: ['S-0', 'a;b'] },
  ...{ contingency: true, ifFails: { step: 'S-0', how: 'cross-threaded' } },
  watchOuts: ['Sharp edge; gloves', '=cold'],
  cautions: [
    { word: 'WARNING', text: 'Stored load: keep clear' },
    { word: 'NOTICE', text: 'Paint' },
  ],
  notes: 'One.\nTwo, "quoted".',
};

interface Ran {
  outcomes: string[];
  cells: Record<string, string>[];
  faults: string[];
}
function run(grid: Grid, kept: readonly KeptRow[] = []): Ran {
  const target = importTargets.steps;
  const { mapping } = guessMapping(grid.names, target);
  const dry = new DryRun({ grid, mapping, target, context: { callouts: [], steps: names }, kept });
  const { ready, refusals } = dry.next(1000);
  return {
    outcomes: ready.map(({ outcome }) => outcome),
    cells: ready.map(({ cells }) => cells),
    faults: refusals.map(({ row, field, message }) => `${row} ${field} ${message}`),
  };
}
const csv = (content: string): Grid =>
  csvGrid({ content, file: 'steps.csv', known: stepColumns.map(({ name }) => name) });
const table = (steps: readonly TaskStep[]) => ({
  columns: stepColumns.map(({ name }) => name),
  rows: steps.map((step) => {
    const cells = cellsOfStep(step, names);
    return stepColumns.map(({ name }) => cells[name] ?? '');
  }),
});

describe('steps as a table', () => {
  it('hold every field of a step that a person fills in', () => {
    expect(stepRecord.safeParse(full).success).toBe(true);
    const held = new Set([...stepColumns.map(({ path }) => path.split('.')[0]), 'id', 'rev', 'task', 'position']);
    expect(Object.keys(stepRecord.shape).filter((name) => !held.has(name))).toEqual(['calloutFrom']);
    expect(Object.keys(full).toSorted()).toEqual(
      Object.keys(stepRecord.shape)
        .filter((name) => name !== 'calloutFrom')
        .toSorted(),
    );
  });

  it('come back the same through CSV of both kinds and a workbook', () => {
    const bare: TaskStep = { ...head, code: 'S-0', outing: '2', role: 'Base', action: 'use' };
    const { columns, rows } = table([full, bare]);
    const book = openWorkbook(workbookBytes(columns, rows, 'steps'), 'steps.xlsx');
    const grids = [csv(exactCsvText(columns, rows)), csv(csvText(columns, rows)), book.read(0, null)];
    for (const grid of grids) {
      const { cells, faults, outcomes } = run(grid);
      expect(faults).toEqual([]);
      expect(outcomes).toEqual(['add', 'add']);
      expect(cells.map((one) => stepOfCells(one, head, names).step)).toEqual([full, bare]);
    }
  });

  it('are added, changed, or the same as kept; columns a file does not have leave what is kept', () => {
    const kept = [{ cells: cellsOfStep(full, names) }];
    const text = 'step,outing,role,action,min,gear\nS-1,1,Lead,tighten,15,\nS-9,2,Base,use,4,"C-1 x 3; ""a;b"""\n';
    const found = run(csv(text), kept);
    expect(found.faults).toEqual([]);
    expect(found.outcomes).toEqual(['change', 'add']);
    const [changed, added] = found.cells.map((cells) => stepOfCells(cells, head, names).step);
    const { gear: _gear, ...rest } = full;
    expect(changed).toEqual({ ...rest, minutes: 15 });
    expect(added).toMatchObject({
      gear: [
        { id: 'C-1', quantity: 3 },
        { id: 'a;b', quantity: 1 },
      ],
    });
    expect(run(csv('code,name\nS-1,"Torque, “final”; all"\n'), kept).outcomes).toEqual(['same']);
  });

  it.each<[string, string, RegExp]>([
    ['outing', '3', /outing: "3" is no outing of this task: there are 1, 2/],
    ['role', 'Base', /role: "Base" is no role of outing 1: there are Lead, Second/],
    ['interface', 'Z', /interface: "Z" is no interface here: there are A/],
    ['action', 'glue', /action: "glue" is none of tighten, loosen, use/],
    ['calloutMin', '40', /calloutMin: .*unit/],
    ['calloutMin', '50 lbf·ft', /callout/],
    ['depth', '3 N·m', /depth: /],
    ['swingDeg', '400', /swingDeg: /],
    ['count', '1.5', /count: "1.5" is no whole number/],
    ['gear', 'C-1 × many', /gear: "C-1 × many" cannot be read: write it as C-1 × 2/],
    ['moves', 'C-1: bag', /moves: "C-1: bag" cannot be read/],
    ['passes', '150 %', /passes: .*on the way to the callout/],
    ['cautions', 'Mind the gap', /cautions: "Mind the gap" cannot be read: begin it with DANGER/],
    ['failure', '', /failure: is empty/],
    ['contingency', 'no', /contingency: must be yes/],
    ['code', '', /code: is empty/],
  ])('%s with “%s” is refused at its cell', (name, value, why) => {
    const cells = { ...cellsOfStep(full, names), [name]: value };
    const columns = Object.keys(cells);
    const { faults } = run(
      csv(exactCsvText(columns, [columns.map((column) => (cells as Record<string, string>)[column] ?? '')])),
    );
    expect(faults.join('\n')).toMatch(why);
  });
});
