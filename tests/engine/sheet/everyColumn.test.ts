/** What a spreadsheet would run, in every column of every table that goes out: acceptance lines S17 and S18. */
import { strFromU8, unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { itemColumns } from '../../../renderer/engine/catalog/index.ts';
import { cellText } from '../../../renderer/engine/sheet/cellText.ts';
import { csvGrid } from '../../../renderer/engine/sheet/csvGrid.ts';
import { openWorkbook } from '../../../renderer/engine/sheet/xlsx/index.ts';
import { stepColumns } from '../../../renderer/engine/stepTable/index.ts';
import { asRunTarget } from '../../../renderer/engine/tableImport/asRunTarget.ts';
import { calloutTarget } from '../../../renderer/engine/tableImport/calloutTarget.ts';
import { tableFile } from '../../../renderer/features/report/tableFile.ts';
import { dangerous } from '../../features/report/hostile.ts';

const tables = {
  items: itemColumns.map(({ name }) => name),
  steps: stepColumns.map(({ name }) => name),
  callouts: calloutTarget.columns.map(({ name }) => name),
  records: asRunTarget.columns.map(({ name }) => name),
};

describe.each(Object.entries(tables))('a table of %s', (name, columns) => {
  // Each text in every column, a number in the last: row by row, so that each stands beside all the others.
  const withNumber = [...columns, 'a number'];
  const rows = dangerous.map((text) => [...columns.map(() => text), -5]);
  const file = (form: 'csv' | 'exact-csv' | 'xlsx'): Uint8Array =>
    tableFile({ name, form, columns: withNumber, rows }).bytes;
  const gridOf = (bytes: Uint8Array) => csvGrid({ content: bytes, file: 'a.csv', known: [] });

  it('has columns to look at, and forty texts and more', () => {
    expect(columns.length).toBeGreaterThan(10);
    expect(dangerous.length).toBeGreaterThanOrEqual(40);
  });

  it('begins no cell of its safe CSV as a formula, and leaves −5 alone', () => {
    const { records } = gridOf(file('csv'));
    expect(records).toHaveLength(dangerous.length);
    const live = records.flatMap(({ cells }) =>
      cells.slice(0, -1).filter((cell) => /^\s*[=+\-@＝＋－＠]|^[\t\r\0]/.test(cell)),
    );
    expect(live).toEqual([]);
    expect(new Set(records.map(({ cells }) => cells.at(-1)))).toEqual(new Set(['-5']));
  });

  it('comes back to the last sign from the exact CSV and from the workbook, which holds no formula', () => {
    const grids = [gridOf(file('exact-csv')), openWorkbook(file('xlsx'), 'a.xlsx').read(0, null)];
    for (const { records } of grids) {
      for (const [at, text] of dangerous.entries()) {
        const cells = records[at]?.cells ?? [];
        expect(cells).toHaveLength(withNumber.length);
        const read = cells.slice(0, -1).map((cell) => cellText(cell));
        expect(read.filter((one) => one.text !== text || one.isFormula)).toEqual([]);
        expect(cellText(cells.at(-1) ?? '').text).toBe('-5');
      }
    }
    expect(strFromU8(unzipSync(file('xlsx'))['xl/worksheets/sheet1.xml'] ?? new Uint8Array())).not.toMatch(/<f[\s>/]/);
  });
});
