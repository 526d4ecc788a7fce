import { describe, expect, it } from 'vitest';
import { csvGrid } from '../../../renderer/engine/sheet/csvGrid.ts';
import { cellText } from '../../../renderer/engine/sheet/cellText.ts';
import { openWorkbook } from '../../../renderer/engine/sheet/xlsx/index.ts';
import { unzipSync, strFromU8 } from 'fflate';
import type { Report } from '../../../renderer/features/report/report.ts';
import { reportFile, reportName } from '../../../renderer/features/report/reportFiles.ts';
import { tableFile, type TableForm } from '../../../renderer/features/report/tableFile.ts';
import { judgedReport } from '../../support/judgedList.ts';
import { dangerous, hostileNames } from './hostile.ts';

const x = { dataTime: '2026-11-25T10:42:00+01:00', appVersion: '0.1.0', hash: '0000 0000' };

/** A report with one text in every field that anybody types or a rule says. */
function saying(text: string): Report {
  const base = judgedReport(1);
  const [row] = base.rows;
  if (row === undefined) throw new Error('no row');
  const finding = {
    rule: text,
    severity: 'query',
    message: text,
    value: -5,
    limit: 0.1,
    unit: text,
    source: text,
  } as const;
  const accepted = [{ rule: text, message: text, reason: text, person: text, at: x.dataTime }];
  return {
    ...base,
    rows: [{ ...row, id: text, said: [text], findings: [finding], accepted, computed: [text], assumptions: [text] }],
    unreadable: [{ code: 'wrong-shape', message: text, row: 3, value: text }],
  };
}

const bytesOf = (report: Report, form: TableForm) => reportFile(report, form, x).bytes;
const texts = [
  'id',
  'said',
  'rule',
  'message',
  'unit',
  'source',
  'acceptedBy',
  'acceptedBecause',
  'computed',
  'assumptions',
];

function gridOf(bytes: Uint8Array, form: TableForm) {
  return form === 'xlsx'
    ? openWorkbook(bytes, 'r.xlsx').read(0, null)
    : csvGrid({ content: bytes, file: 'r.csv', known: [] });
}

describe('a text that a spreadsheet would run', () => {
  it('is tried in at least forty forms', () => {
    expect(new Set(dangerous).size).toBeGreaterThanOrEqual(40);
  });

  it.each(dangerous)('is run nowhere in the safe CSV: %j', (text) => {
    const { records } = gridOf(bytesOf(saying(text), 'csv'), 'csv');
    const cells = records.flatMap((record) => record.cells);
    expect(cells.length).toBeGreaterThan(20);
    // A number stays a number, signed or not.
    expect(cells.filter((cell) => /^\s*[=+\-@＝＋－＠]|^[\t\r\0]/.test(cell))).toEqual(['-5']);
  });

  it.each(dangerous)('comes back as it was from the exact CSV, and from a workbook, in every column: %j', (text) => {
    for (const form of ['exact-csv', 'xlsx'] as const) {
      const grid = gridOf(bytesOf(saying(text), form), form);
      const [record] = grid.records;
      const read = (name: string) => cellText(record?.cells[grid.names.indexOf(name)] ?? '');
      for (const name of texts) expect([form, name, read(name)]).toEqual([form, name, { text, isFormula: false }]);
      expect(read('value').text).toBe('-5');
    }
  });

  it.each(dangerous)('is a text cell in the workbook, and no formula is in it: %j', (text) => {
    const xml = strFromU8(unzipSync(bytesOf(saying(text), 'xlsx'))['xl/worksheets/sheet1.xml'] ?? new Uint8Array());
    expect(xml).not.toMatch(/<f[\s>/]/);
    const cells = [...xml.matchAll(/<c [^>]*>/g)].map(([tag]) => tag);
    expect(cells.length).toBeGreaterThan(25);
    const numbers = cells.filter((tag) => !tag.includes('t="inlineStr"'));
    expect(numbers).toHaveLength(2);
  });

  it('comes back from JSON', () => {
    for (const text of dangerous) {
      const read = JSON.parse(new TextDecoder().decode(bytesOf(saying(text), 'json'))) as { rows: { id: string }[] };
      expect(read.rows[0]?.id).toBe(text);
    }
  });
});

describe('the files of a report', () => {
  it('say the same as the report, each in its form', () => {
    const report = judgedReport(16);
    const findings = report.rows.reduce((sum, row) => sum + Math.max(1, row.findings.length), 0);
    for (const form of ['csv', 'exact-csv', 'xlsx'] as const)
      expect(gridOf(bytesOf(report, form), form).records).toHaveLength(findings + report.unreadable.length);
    const json = JSON.parse(new TextDecoder().decode(bytesOf(report, 'json'))) as Record<string, unknown>;
    expect(json).toMatchObject({ ...x, summary: report.summary, heading: report.heading });
    expect(json['caution']).toMatch(/^Torque and lifting can hurt people/);
    expect((json['rows'] as { findings: unknown[] }[]).map(({ findings: found }) => found.length)).toEqual(
      report.rows.map((row) => row.findings.length),
    );
  });

  it('of a list give its cells back, blanks as blanks', () => {
    const list = {
      name: 'Callouts / list',
      columns: ['id', 'thread', 'scatter'],
      rows: [
        ['C-1', '3/8-24', -5],
        ['C-2', null, null],
      ],
    };
    for (const form of ['csv', 'exact-csv', 'xlsx'] as const) {
      const { records } = gridOf(tableFile({ ...list, form }).bytes, form);
      expect(records.map(({ cells }) => cells)).toEqual([
        ['C-1', '3/8-24', '-5'],
        ['C-2', '', ''],
      ]);
    }
    const { name, bytes } = tableFile({ ...list, form: 'json' });
    expect(name).toBe('Callouts - list.json');
    expect(JSON.parse(new TextDecoder().decode(bytes))).toEqual({
      columns: list.columns,
      rows: [{ id: 'C-1', thread: '3/8-24', scatter: -5 }, { id: 'C-2' }],
    });
  });

  it.each(hostileNames)('have names that every file system takes: %j', (name) => {
    const { heading } = judgedReport(1);
    const made = reportName({ ...judgedReport(1), heading: { ...heading, name } }, x.dataTime);
    expect(made).toMatch(/^callouts_.*2026-11-25$|^callouts_report$/s);
    // eslint-disable-next-line no-control-regex
    expect(made).not.toMatch(/[<>:"/\\|?*\u0000-\u001f]|\.\.\/|[. ]$/);
    expect(new TextEncoder().encode(made).length).toBeLessThanOrEqual(200);
  });
});
