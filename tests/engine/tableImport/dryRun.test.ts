import { describe, expect, it } from 'vitest';
import { judgeCallouts } from '../../../renderer/engine/callout/index.ts';
import { clipboardText, csvText, exactCsvText } from '../../../renderer/engine/sheet/csvText.ts';
import { csvGrid, pastedGrid } from '../../../renderer/engine/sheet/csvGrid.ts';
import { openWorkbook, workbookBytes } from '../../../renderer/engine/sheet/xlsx/index.ts';
import { RefusedError } from '../../../renderer/engine/errors.ts';
import { book, textRow } from '../sheet/xlsx/packed.ts';
import { csv, tried } from './tried.ts';

const head = ['id', 'thread', 'torqueMin', 'torqueMax', 'wrench', 'remark'];
const sound = ['C-1', '3/8-24 UNJF-3A', '20 lbf·ft', '25 lbf·ft', '9/16 in', 'east side'];

const stylesXml = '<styleSheet><cellXfs><xf numFmtId="0"/><xf numFmtId="16"/></cellXfs></styleSheet>';

function sheet(...cells: string[]) {
  const given = [...cells, ...sound.slice(cells.length).map((text) => `<c t="inlineStr"><is><t>${text}</t></is></c>`)];
  return openWorkbook(
    book({ rows: `${textRow(1, head)}<row r="2">${given.join('')}</row>`, stylesXml }),
    'l.xlsx',
  ).read(0, null);
}

const text = (cell: string): string => `<c t="inlineStr"><is><t>${cell}</t></is></c>`;

describe('a dry run', () => {
  it('counts what would be added, changed, kept as it is, and what is bad', () => {
    const grid = csv(
      exactCsvText(head, [
        sound,
        ['C-2', ...sound.slice(1)],
        ['C-3', ...sound.slice(1)],
        ['C-4', 'M10', '', 'x', '', ''],
      ]),
    );
    const kept = [
      { cells: Object.fromEntries(head.map((name, at) => [name, sound[at] ?? ''])) },
      { cells: { id: 'C-2', thread: 'M10' } },
    ];
    const { counts, ready, refusals, columns } = tried(grid, { kept });
    expect(counts).toEqual({ rows: 4, add: 1, change: 1, same: 1, bad: 1, badCells: 2 });
    expect(ready.map(({ key, outcome }) => [key, outcome])).toEqual([
      ['C-1', 'same'],
      ['C-2', 'change'],
      ['C-3', 'add'],
    ]);
    expect(refusals.map(({ row, field }) => [row, field])).toEqual([
      [5, 'torqueMin'],
      [5, 'torqueMax'],
    ]);
    expect(columns).toEqual(head);
  });

  it('comes to the same in pieces of any size', () => {
    const rows = Array.from({ length: 50 }, (_, at) => [
      `C-${at}`,
      'M10',
      at % 7 === 0 ? '5' : '40 N·m',
      '50 N·m',
      '',
      '',
    ]);
    const grid = csv(exactCsvText(head, rows));
    expect(tried(grid, { piece: 1 })).toEqual(tried(grid, { piece: 1000 }));
    expect(tried(grid).counts).toMatchObject({ add: 42, bad: 8 });
  });

  it('counts every bad cell, and tells a hundred thousand of them', () => {
    const rows = Array.from({ length: 40_000 }, (_, at) => [`C-${at}`, 'x', '5', '6', '', '']);
    const { counts, refusals } = tried(csv(exactCsvText(head, rows)), { piece: 5000 });
    expect(counts).toMatchObject({ bad: 40_000, badCells: 120_000 });
    expect(refusals).toHaveLength(100_000);
  });

  it('keeps columns nothing reads under the file’s names, and apart from ours', () => {
    const grid = csv('id,thread,torque min,torque max,colour,torque\nC-1,M10,40 N·m,50 N·m,red,see note\n');
    const mapping = [...['id', 'thread', 'torqueMin', 'torqueMax', null, null]].map((column) => ({
      column,
      unit: null,
    }));
    const { ready, columns } = tried(grid, { mapping });
    expect(columns).toEqual(['id', 'thread', 'torqueMin', 'torqueMax', 'colour', 'torque (as given)']);
    expect(ready[0]?.cells).toEqual({
      ...{ id: 'C-1', thread: 'M10', torqueMin: '40 N·m', torqueMax: '50 N·m', colour: 'red' },
      'torque (as given)': 'see note',
    });
  });

  it('takes one row for each key, and names the line of the first', () => {
    const { counts, refusals } = tried(csv(exactCsvText(head, [sound, sound])));
    expect(counts).toMatchObject({ add: 1, bad: 1 });
    expect(refusals[0]).toMatchObject({
      row: 3,
      field: 'id',
      code: 'duplicate-id',
      message: expect.stringContaining('line 2') as string,
    });
  });

  it('refuses the rows that the headless command refuses, cell by cell', () => {
    const rows = [
      sound,
      ['C-2', 'M10x9', '5 N·m', '1,200 lbf·in', '8-Mar', ''],
      ['', 'M8', '10 N·m', '12 kg', '=1+1', ''],
      ['C-4', 'M8', '5', '6 N·m', '', ''],
    ];
    const content = `${[head, ...rows].map((cells) => cells.map((cell) => `"${cell}"`).join(',')).join('\n')}\n`;
    let told: unknown;
    try {
      judgeCallouts({ content, file: 'list.csv', skipBad: false });
    } catch (error) {
      told = error instanceof RefusedError ? error.refusal.rows : error;
    }
    expect(tried(csv(content)).refusals).toEqual(told);
    expect(told).toHaveLength(7);
  });
});

describe('a size that a spreadsheet made a date of', () => {
  const bad: [what: string, cells: string[], field: string][] = [
    ['a date where the wrench belongs', [...sound.slice(0, 4).map(text), '<c s="1"><v>45359</v></c>'], 'wrench'],
    ['a date in its own words', [...sound.slice(0, 4).map(text), text('8-Mar')], 'wrench'],
    ['the number of a day', [...sound.slice(0, 4).map(text), '<c><v>45359</v></c>'], 'wrench'],
    ['a date where the thread belongs', [text('C-1'), '<c s="1"><v>45359</v></c>'], 'thread'],
    ['a date where a torque belongs', [text('C-1'), text('M10'), '<c s="1"><v>45359</v></c>'], 'torqueMin'],
    ['a date as an id', ['<c s="1"><v>45359</v></c>'], 'id'],
    ['an ISO date', [...sound.slice(0, 4).map(text), '<c t="d"><v>2024-03-08</v></c>'], 'wrench'],
    ['a German date', [...sound.slice(0, 4).map(text), text('8. Mrz')], 'wrench'],
    ['a month and a year', [...sound.slice(0, 4).map(text), text('Mar-08')], 'wrench'],
    ['a date with slashes', [...sound.slice(0, 4).map(text), text('3/8/2024')], 'wrench'],
  ];
  it.each(bad)('is refused with row, column and reason: %s', (_, cells, field) => {
    const { refusals, counts } = tried(sheet(...cells));
    expect(counts).toMatchObject({ add: 0, bad: 1 });
    const [refusal] = refusals;
    expect(refusal).toMatchObject({ row: 2, field, file: 'l.xlsx' });
    expect(refusal?.message).toMatch(/date|number of a day/);
  });

  it('is taken where a time belongs', () => {
    const rows = `${textRow(1, ['callout', 'position', 'cycle', 'final', 'time'])}<row r="2">${text('C-1')}${text('A')}<c><v>1</v></c>${text('48 N·m')}<c s="1"><v>45359.5</v></c></row>`;
    const grid = openWorkbook(book({ rows, stylesXml }), 'l.xlsx').read(0, null);
    const callouts = [{ id: 'C-1', thread: 'M10', torqueMin: '40 N·m', torqueMax: '50 N·m' }];
    const { ready, refusals } = tried(grid, { target: 'as-run', callouts });
    expect(refusals).toEqual([]);
    expect(ready[0]).toMatchObject({ key: 'C-1 / A / 1 / ', cells: { time: '2024-03-08T12:00:00', cycle: '1' } });
    expect(tried(grid, { target: 'as-run', callouts: [] }).refusals[0]).toMatchObject({
      field: 'callout',
      code: 'unknown-id',
    });
  });
});

describe('a cell of a workbook', () => {
  it.each([
    ['a formula with a value kept with it', `<c t="str"><f>A1</f><v>40 N·m</v></c>`, /formulas are not evaluated/],
    ['a number without a unit', '<c><v>40</v></c>', /no unit/],
    ['an error', '<c t="e"><v>#N/A</v></c>', /error of the spreadsheet/],
    ['a truth', '<c t="b"><v>1</v></c>', /TRUE/],
  ])('that is %s is no torque', (_, cell, why) => {
    const { refusals, counts } = tried(sheet(text('C-1'), text('M10'), cell));
    expect(counts.bad).toBe(1);
    expect(refusals[0]).toMatchObject({ row: 2, field: 'torqueMin' });
    expect(`${refusals[0]?.message} ${String(refusals[0]?.value)}`).toMatch(why);
  });

  it('under merged cells is no value, though an empty one would pass', () => {
    const rows = [head, sound, ['C-2', ...sound.slice(1, 4)]].map((cells, at) => textRow(at + 1, cells)).join('');
    const bytes = book({ rows, behind: '<mergeCells><mergeCell ref="E2:E3"/></mergeCells>' });
    const { refusals } = tried(openWorkbook(bytes, 'l.xlsx').read(0, null));
    expect(refusals).toEqual([
      expect.objectContaining({ row: 3, field: 'wrench', message: expect.stringContaining('merged') as string }),
    ]);
  });
});

describe('a unit in the header', () => {
  const of = (rows: string[][]) =>
    tried(csv(exactCsvText(['id', 'thread', 'min torque (N·m)', 'max torque (N·m)'], rows)));

  it('holds for the numbers under it, which keep it', () => {
    const { ready, refusals } = of([['C-1', 'M10', '40', '50.5']]);
    expect(refusals).toEqual([]);
    expect(ready[0]?.cells).toEqual({ id: 'C-1', thread: 'M10', torqueMin: '40 N·m', torqueMax: '50.5 N·m' });
  });

  it('may be said again in a cell, and not contradicted', () => {
    expect(of([['C-1', 'M10', '40 Nm', '50 N.m']]).counts.add).toBe(1);
    const { refusals } = of([['C-1', 'M10', '40 lbf·ft', '50']]);
    expect(refusals[0]).toMatchObject({ row: 2, field: 'torqueMin', code: 'contradiction', value: '40 lbf·ft' });
    expect(of([['C-1', 'M10', '40 xyz', '50']]).refusals[0]).toMatchObject({ code: 'unknown-unit' });
  });

  it('makes no quantity of what is ambiguous', () => {
    expect(of([['C-1', 'M10', '1,250', '1300']]).refusals[0]).toMatchObject({ code: 'ambiguous-quantity' });
    expect(of([['C-1', 'M10', '45359', '45360']]).counts.bad).toBe(1);
  });
});

/** 50 rows of 10 columns, with every kind of cell in them. */
function block(): { columns: string[]; rows: string[][] } {
  const columns = [
    'id',
    'thread',
    'torqueMin',
    'torqueMax',
    'torqueAlt',
    'strength',
    'wrench',
    'lubrication',
    'scatter',
    'remark',
  ];
  const rows = Array.from({ length: 50 }, (_, at) => [
    ...[
      `00${at}E5`,
      at % 2 === 0 ? '3/8-24 UNJF-3A' : 'M10x1.25',
      `${20 + at} lbf·ft`,
      `${25 + at} ft-lb`,
      `${27 + at}-${33 + at} N·m`,
    ],
    ...[
      at % 2 === 0 ? '{"proofMPa":600}' : '8.8',
      at % 3 === 0 ? '9/16"' : '14 mm',
      'oil, "thin"\tapplied',
      '25 %',
      `=row ${at}\nsecond; line, '-5`,
    ],
  ]);
  return { columns, rows };
}

describe('a block of 50 rows and 10 columns', () => {
  const { columns, rows } = block();
  const cellsOf = (ready: ReturnType<typeof tried>['ready']) =>
    ready.map(({ cells }) => columns.map((name) => cells[name] ?? ''));
  // The column nothing reads begins with "=": it comes back as the cell that stands for that text.
  const expected = rows.map((cells) => cells.map((cell) => (cell.startsWith('=') ? `'${cell}` : cell)));

  it('copied and pasted back has 500 of 500 cells as they were, units and all', () => {
    const grid = pastedGrid({ text: clipboardText([columns, ...rows]), hasHeader: true, known: columns });
    const { ready, refusals } = tried(grid);
    expect(refusals).toEqual([]);
    expect(cellsOf(ready)).toEqual(expected);
    expect(cellsOf(ready).flat()).toHaveLength(500);
  });

  it('is the same through either CSV and through a workbook', () => {
    for (const content of [exactCsvText(columns, rows), csvText(columns, rows)])
      expect(cellsOf(tried(csvGrid({ content, file: 'l.csv', known: columns })).ready)).toEqual(expected);
    const sheetOf = openWorkbook(workbookBytes(columns, rows, 'Callouts'), 'l.xlsx').read(0, null);
    expect(cellsOf(tried(sheetOf).ready)).toEqual(expected);
  });

  it('with 5 bad cells names the 5 of them', () => {
    const spoilt = rows.map((cells) => [...cells]);
    for (const [row, column, cell] of [
      [3, 2, '45'],
      [11, 6, '8-Mar'],
      [24, 1, 'M10x'],
      [30, 3, '1,250 lbf·in'],
      [49, 8, 'much'],
    ] as const)
      (spoilt[row] ?? [])[column] = cell;
    const grid = pastedGrid({ text: clipboardText([columns, ...spoilt]), hasHeader: true, known: columns });
    const { refusals, counts } = tried(grid);
    expect(refusals.map(({ row, field }) => `${row} ${field}`)).toHaveLength(5);
    expect(refusals.map(({ field }) => field)).toEqual(['torqueMin', 'wrench', 'thread', 'torqueMax', 'scatter']);
    expect(counts).toMatchObject({ add: 45, bad: 5 });
  });

  it('without a header has columns by number, which a mapping names', () => {
    const grid = pastedGrid({ text: clipboardText(rows), hasHeader: false, known: columns });
    expect(grid.names[9]).toBe('Column 10');
    const { ready } = tried(grid, {
      mapping: columns.map((column, at) => ({ column: at === 9 ? null : column, unit: null })),
    });
    expect(ready).toHaveLength(50);
    expect(ready[0]?.cells['Column 10']).toBe(expected[0]?.[9]);
  });
});
