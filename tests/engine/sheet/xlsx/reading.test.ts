import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { RefusedError } from '../../../../renderer/engine/errors.ts';
import { cellText } from '../../../../renderer/engine/sheet/cellText.ts';
import { openWorkbook, workbookBytes } from '../../../../renderer/engine/sheet/xlsx/index.ts';
import { serialDate } from '../../../../renderer/engine/sheet/xlsx/serialDate.ts';
import { book, textRow } from './packed.ts';
import { shareOf } from '../../../support/shareOf.ts';

const stylesXml =
  '<styleSheet><numFmts><numFmt numFmtId="164" formatCode="[Red]d\\-mmm"/><numFmt numFmtId="165" formatCode="0.0 &quot;days&quot;"/><numFmt numFmtId="166" formatCode="[h]:mm"/></numFmts><cellXfs><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="164"/><xf numFmtId="165"/><xf numFmtId="166"/><xf numFmtId="49"/></cellXfs></styleSheet>';

function read(bytes: Uint8Array, headerRow: number | null = null) {
  return openWorkbook(bytes, 'list.xlsx').read(0, headerRow);
}

function refusal(act: () => unknown) {
  try {
    act();
  } catch (error) {
    if (error instanceof RefusedError) return error.refusal;
    throw error;
  }
  throw new Error('nothing was refused');
}

const header = textRow(1, ['id', 'size', 'torque']);

describe('the cells of a workbook', () => {
  it('are texts: shared, inline and rich ones, numbers, truths', () => {
    const rows = `<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" t="inlineStr"><is><r><t>tor</t></r><r><t>que</t></r><rPh><t>no</t></rPh></is></c></row>
      <row r="2"><c r="A2"><v>0.10000000000000001</v></c><c r="B2" t="b"><v>1</v></c></row>
      <row r="4"><c r="B4" t="s"><v>1</v></c></row>`;
    const grid = read(book({ rows, strings: ['id &amp; &#x4E;o', 'a_x000D_b'] }));
    expect(grid.names).toEqual(['id & No', 'torque']);
    expect(grid.records.map(({ row, cells }) => [row, ...cells])).toEqual([
      [2, '0.1', 'TRUE'],
      [4, '', 'a\rb'],
    ]);
  });

  it('that show a date are told as dates, by built-in and by own formats, and others are not', () => {
    const rows = `${header}<row r="2"><c r="A2" s="1"><v>45359</v></c><c r="B2" s="2"><v>45359</v></c><c r="C2" s="3"><v>45359</v></c></row>
      <row r="3"><c r="A3" s="4"><v>0.5</v></c><c r="B3" s="5"><v>45359</v></c><c r="C3" s="0"><v>45359</v></c></row>`;
    const { records } = read(book({ rows, stylesXml }));
    expect(records.map(({ cells }) => cells)).toEqual([
      ['2024-03-08', '2024-03-08', '45359'],
      ['12:00:00', '45359', '45359'],
    ]);
    expect(records.map(({ odd }) => [...(odd?.keys() ?? [])])).toEqual([[0, 1], [0]]);
    const old = book({ rows, stylesXml, workbookPr: '<workbookPr date1904="1"/>' });
    expect(read(old).records[0]?.cells[0]).toBe('2028-03-09');
  });

  it('with a formula give its own words, never the value kept with it', () => {
    const rows = `${header}<row r="2"><c r="A2" t="str"><f>CONCAT("C-",1)</f><v>C-1</v></c><c r="B2"><f t="shared" si="0"/><v>8</v></c></row>`;
    const [record] = read(book({ rows })).records;
    expect(record?.cells).toEqual(['=CONCAT("C-",1)', '=', '']);
    expect(record?.odd?.get(0)).toEqual({ kind: 'formula' });
    expect(cellText(record?.cells[0] ?? '')).toEqual({ text: '=CONCAT("C-",1)', isFormula: true });
  });

  it('with a text that only looks like a formula stay that text', () => {
    const [record] = read(book({ rows: `${header}${textRow(2, ['=1+1', '-5 N·m', "'=x"])}` })).records;
    expect(record?.cells.map(cellText)).toEqual([
      { text: '=1+1', isFormula: false },
      { text: '-5 N·m', isFormula: false },
      { text: "'=x", isFormula: false },
    ]);
  });

  it('stand where they are named, not where they come', () => {
    const { records } = read(
      book({ rows: `${header}<row r="9"><c r="C9" t="inlineStr"><is><t>45 N·m</t></is></c></row>` }),
    );
    expect(records).toEqual([{ row: 9, cells: ['', '', '45 N·m'], odd: null }]);
  });
});

describe('a sheet', () => {
  it('whose header is merged is refused with the cells, and read below it where the row is named', () => {
    const title = '<row r="1"><c r="A1" t="inlineStr"><is><t>Torque list</t></is></c></row>';
    const rows = `${title}${textRow(2, ['id', 'size'])}${textRow(3, ['C-1', 'M10'])}`;
    const bytes = book({ rows, behind: '<mergeCells count="1"><mergeCell ref="A1:F1"/></mergeCells>' });
    expect(refusal(() => read(bytes))).toMatchObject({
      code: 'missing-field',
      row: 1,
      file: 'list.xlsx',
      message: expect.stringContaining('A1:F1') as string,
    });
    expect(read(bytes, 2).records.map(({ cells }) => cells)).toEqual([['C-1', 'M10']]);
    expect(refusal(() => read(bytes, 7)).message).toContain('Row 7');
  });

  it('says of merged cells below the header that they have no value of their own', () => {
    const rows = `${header}${textRow(2, ['a', 'x', '1 N·m'])}${textRow(3, ['b', '', '2 N·m'])}${textRow(4, ['c', 'y', '3 N·m'])}`;
    const grid = read(
      book({ rows, behind: '<mergeCells><mergeCell ref="B2:B3"/><mergeCell ref="XA2:XFD3"/></mergeCells>' }),
    );
    expect(grid.records.map(({ odd }) => odd?.get(1) ?? null)).toEqual([null, { kind: 'merged' }, null]);
    expect(grid.notes).toEqual([expect.stringContaining('merged')]);
  });

  it('that is hidden is named, hidden rows and columns are read and said', () => {
    const hidden = `${header}<row r="2" hidden="1"><c r="A2" t="inlineStr"><is><t>C-1</t></is></c></row>`;
    const bytes = book({
      sheets: [
        { name: 'Shown', rows: hidden },
        { name: 'Old &amp; wrong', state: 'veryHidden', rows: header },
      ],
      before: '<cols><col min="2" max="2" hidden="1"/></cols>',
      extra: [
        { name: 'xl/vbaProject.bin', content: 'x' },
        { name: 'xl/externalLinks/externalLink1.xml', content: '<x/>' },
      ],
    });
    const workbook = openWorkbook(bytes, 'list.xlsx');
    expect(workbook.sheets.map(({ name, state }) => [name, state])).toEqual([
      ['Shown', 'visible'],
      ['Old & wrong', 'hidden'],
    ]);
    expect(workbook.notes.join(' ')).toMatch(/hidden: "Old & wrong".*macros.*links to other files/);
    const grid = workbook.read(0, null);
    expect(grid.records).toHaveLength(1);
    expect(grid.notes.join(' ')).toMatch(/Hidden rows.*1.*Hidden columns/);
  });

  it.each([
    ['a name twice', ['id', 'ID'], 'duplicate-key'],
    ['a column without a name', ['id', '', 'size'], 'missing-field'],
    ['too many columns', Array.from({ length: 257 }, (_, at) => `c${at}`), 'too-large'],
  ])('with %s in its header is refused', (_, names, code) => {
    expect(refusal(() => read(book({ rows: textRow(1, names) }))).code).toBe(code);
  });

  it('with a row longer than its header names that row', () => {
    const grid = read(book({ rows: `${textRow(1, ['id'])}${textRow(2, ['a', 'b'])}${textRow(3, ['c', ' '])}` }));
    expect(grid.ragged).toEqual([expect.objectContaining({ row: 2, value: 2, file: 'list.xlsx' })]);
    expect(grid.records.map(({ cells }) => cells)).toEqual([['c']]);
  });

  it('without anything in it is refused', () => {
    expect(refusal(() => read(book({ rows: '' })))).toMatchObject({ code: 'missing-field' });
  });
});

describe('the number of a day', () => {
  it.each([
    [1, 1900, '1900-01-01'],
    [59, 1900, '1900-02-28'],
    [60, 1900, null],
    [61, 1900, '1900-03-01'],
    [45359, 1900, '2024-03-08'],
    [45351, 1900, '2024-02-29'],
    [43897, 1904, '2024-03-08'],
    [0, 1904, '1904-01-01'],
    [45359.604166666664, 1900, '2024-03-08T14:30:00'],
    [45359.999999999, 1900, '2024-03-09'],
    [0.25, 1900, '06:00:00'],
    [2_958_465, 1900, '9999-12-31'],
    [2_958_466, 1900, null],
    [-1, 1900, null],
    [Number.NaN, 1900, null],
  ] as const)('%s of %s is %s', (serial, system, expected) => {
    expect(serialDate(serial, system)).toBe(expected);
  });

  it('is the calendar’s own for every day of 400 years', () => {
    const days = Array.from({ length: 146_097 }, (_, at) => at + 61);
    const dateOf = (day: number) => new Date(Date.UTC(1970, 0, 1) + (day - 25_569) * 86_400_000).toISOString();
    expect(days.filter((day) => serialDate(day, 1900) !== dateOf(day).slice(0, 10))).toEqual([]);
  });
});

describe('a workbook written', () => {
  it('gives back every text as it was, with no formula in it', () => {
    const cell = fc.oneof(fc.string({ unit: 'grapheme', minLength: 1 }), fc.string({ unit: 'binary', minLength: 1 }));
    const sound = cell
      .map((text) => text.replace(/[\ud800-\udbff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, '\ufffd'))
      .filter((text) => text.trim() !== '');
    fc.assert(
      fc.property(fc.array(fc.tuple(sound, sound), { minLength: 1, maxLength: 20 }), (rows) => {
        const bytes = workbookBytes(['a', 'b'], rows, 'x');
        const { records } = read(bytes);
        expect(records.map(({ cells }) => cells.map((text) => cellText(text)))).toEqual(
          rows.map((texts) => texts.map((text) => ({ text, isFormula: false }))),
        );
        expect(records.every(({ odd }) => odd === null)).toBe(true);
      }),
      { seed: 6, numRuns: shareOf(300) },
    );
  });

  it('has numbers as numbers, blanks as nothing, and the same bytes each time', () => {
    const rows = [
      ['a', -5, null],
      ['', 0.1, 'b'],
    ];
    const bytes = workbookBytes(['one', 'two', 'three'], rows, 'Torque: [list]/1');
    expect(workbookBytes(['one', 'two', 'three'], rows, 'Torque: [list]/1')).toEqual(bytes);
    const workbook = openWorkbook(bytes, 'list.xlsx');
    expect(workbook.sheets[0]?.name).toBe('Torque   list  1');
    expect(workbook.read(0, null).records.map(({ cells }) => cells)).toEqual([
      ['a', '-5', ''],
      ['', '0.1', 'b'],
    ]);
  });
});
