/**
 * A safe CSV opened by a spreadsheet that parts at another sign than the file does: acceptance line S17. The rows are parted by Papa Parse
 * (RFC 4180) and by bare splitting, which sees no quotation marks. That a spreadsheet parts so: common practice, no source.
 */
import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { itemColumns } from '../../../renderer/engine/catalog/index.ts';
import { typedCell } from '../../../renderer/engine/inspection/typedCell.ts';
import { cellText, harmless } from '../../../renderer/engine/sheet/cellText.ts';
import { csvText, exactCsvText } from '../../../renderer/engine/sheet/csvText.ts';
import { exactCell } from '../../../renderer/engine/sheet/exactCell.ts';
import { csvGrid } from '../../../renderer/engine/sheet/csvGrid.ts';
import { dangerous } from '../../features/report/hostile.ts';

const runs = Number(process.env['BAGWRIGHT_WHOLE'] === '1' ? 40_000 : 4000);
const signs = ['=', '+', '-', '@', '＝', '＋', '－', '＠', "'", '"', ',', ';', '\t', '\n', '\r', ' ', '\u00a0', '\0'];
const text = fc.oneof(
  fc.string({ unit: fc.constantFrom(...signs, 'a', '1', '5', '(') }),
  fc.string({ unit: 'binary' }),
  fc
    .array(fc.constantFrom(...dangerous, ';', '\t', ',', '\n', '-5', "'", 'x'), { maxLength: 5 })
    .map((all) => all.join('')),
);

/** A number at a part's begin, its unit or other numbers behind it, up to what no formula has there: the end, a quotation mark, an apostrophe. */
const number = /^[\s"]*[+\-＋－]\s*\d+(?:[.,]\d+)?\s*(?:[\p{L}°][\p{L}\d\s·*./-]*)?(?:[,\s]-?\d*)*(?:["']|$)/u;
const isLive = (part: string): boolean => /^[\s"\0]*[=+\-@＝＋－＠]/.test(part) && !number.test(part);

/** Every part of a file as one spreadsheet or another sees it. */
function partsOf(file: string): string[] {
  const rows = file.split(/\r\n|\r|\n/);
  const bare = [/,/, /;/, /\t/, /[,;\t]/].flatMap((sign) => rows.flatMap((row) => row.split(sign)));
  const quoted = [',', ';', '\t'].flatMap((delimiter) => Papa.parse<string[]>(file, { delimiter }).data.flat());
  return [...bare, ...quoted];
}

describe('a text made harmless', () => {
  it.each([
    ['x;=1+1', "x;'=1+1"],
    ['x;  ＝1', "x;'  ＝1"],
    ['x;"=1+1"', `x;'"=1+1"`],
    ['x\t@A1', "x\t'@A1"],
    ['x\n-2+3+cmd', "x\n'-2+3+cmd"],
    ['x; \t =1', "x; \t' =1"],
    ["x;'=1", "x;''=1"],
    ['=1;=2', "'=1;'=2"],
    ['set 45 N·m; -5 N·m', 'set 45 N·m; -5 N·m'],
    ['a;-5;+3,5 mm;-1/2 in', 'a;-5;+3,5 mm;-1/2 in'],
    ['a;-5%*A1', "a;'-5%*A1"],
    ['Loosen; then tighten', 'Loosen; then tighten'],
    ['a;b=c', 'a;b=c'],
  ])('%j stands as %j', (said, stands) => {
    expect(harmless(said)).toBe(stands);
    expect(cellText(stands)).toEqual({ text: said, isFormula: false });
  });

  it('comes back as it was, whatever it is, kept in a list too', () => {
    fc.assert(
      fc.property(text, (said) => {
        expect(cellText(harmless(said))).toEqual({ text: said, isFormula: false });
        expect(cellText(exactCell(said))).toEqual({ text: said, isFormula: false });
        const kept = typedCell(harmless(said), true);
        expect(cellText(kept)).toEqual({ text: said, isFormula: false });
      }),
      { numRuns: runs, seed: 1126 },
    );
  });

  it('comes back from a text of a hundred thousand signs, each of which would part it', () => {
    for (const unit of ['\t', ';"', ";'", ';-5', "'"]) {
      const long = unit.repeat(100_000);
      expect(cellText(harmless(long)).text === long).toBe(true);
    }
  });

  it.each(["x,-b,'-c", "see 'a';'b'", "it's; fine", "x;' a"])('leaves %j of another program alone', (cell) => {
    expect(cellText(cell).text).toBe(cell);
  });

  it('takes the one apostrophe before a formula that was written without looking within it', () => {
    expect(cellText("'=A1;=A2")).toEqual({ text: '=A1;=A2', isFormula: false });
    expect(cellText('=A1;=A2').isFormula).toBe(true);
  });
});

describe('a safe CSV', () => {
  it('begins no part of any row as a formula, parted at commas, semicolons or tabs, with and without quotation marks', () => {
    const cell = fc.oneof(text, fc.constant(-5), fc.constant(3), fc.constant(null));
    fc.assert(
      fc.property(fc.array(fc.tuple(cell, cell, cell), { minLength: 1, maxLength: 3 }), text, (rows, head) => {
        const file = csvText(['id', head, 'c'], rows);
        expect(partsOf(file).filter(isLive)).toEqual([]);
        // Parted as it was written, it is the same cells; NUL, CR and LF as in every table.
        const cells = Papa.parse<string[]>(file, { delimiter: ',', newline: '\r\n' }).data.slice(1, -1);
        const same = cells.map((row) => row.map((one) => cellText(one).text));
        expect(same).toEqual(rows.map((row) => row.map((one) => (one === null ? '' : String(one)))));
      }),
      { numRuns: runs, seed: 1127 },
    );
  });

  it('holds in every column, each dangerous text behind a semicolon, a tab, a comma and a line break', () => {
    const columns = itemColumns.map(({ name }) => name);
    for (const parting of [';', '\t', ',', '\n', '; "']) {
      const rows = dangerous.map((one) => columns.map(() => `x${parting}${one}`));
      expect(partsOf(csvText(columns, rows)).filter(isLive)).toEqual([]);
      const exact = csvGrid({ content: exactCsvText(columns, rows), file: 'a.csv', known: columns });
      expect(exact.records.map(({ cells }) => cells.map((one) => cellText(one).text))).toEqual(rows);
    }
  });

  it('is told from one that is not: each guard missing is found', () => {
    for (const file of [
      'a,x;=1,b\r\n',
      'a,"x;=1",b\r\n',
      'a,"x\n@A1",b\r\n',
      'a,"x;""=1""",b\r\n',
      'a,x\t-2+cmd\r\n',
      '=1\r\n',
    ])
      expect(partsOf(file).filter(isLive)).not.toEqual([]);
  });
});
