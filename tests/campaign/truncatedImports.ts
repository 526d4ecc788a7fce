/** F9: a file that is broken off anywhere. It is refused with its place, or every row of it is what stands in it. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { RefusedError } from '../../renderer/engine/errors.ts';
import { readPlan } from '../../renderer/engine/plan/readPlan.ts';
import { csvGrid } from '../../renderer/engine/sheet/csvGrid.ts';
import { openWorkbook, workbookBytes } from '../../renderer/engine/sheet/xlsx/index.ts';
import { importTargets } from '../../renderer/engine/tableImport/index.ts';
import { tried, type Tried } from '../engine/tableImport/tried.ts';
import type { Dice } from '../reference/dice.ts';
import { must, mustEqual, type Part } from './part.ts';
import { calloutTable } from './parsers/tables.ts';

const plan = readFileSync(fileURLToPath(new URL('../../data/demo/tarn-array.json', import.meta.url)));
const table = Buffer.from(`${calloutTable}\n`);
const whole = triedCsv(table);
const rows = Array.from({ length: 60 }, (_, n) => [`C-${n}`, 'M10', '45 N·m', '50 N·m']);
const workbook = workbookBytes(['id', 'thread', 'torqueMin', 'torqueMax'], rows, 'Callouts');

function triedCsv(content: Uint8Array): Tried {
  const known = importTargets.callouts.columns.map(({ name }) => name);
  return tried(csvGrid({ content, file: 'list.csv', known }));
}

function refusalOf(read: () => unknown): RefusedError | null {
  try {
    read();
    return null;
  } catch (error) {
    if (error instanceof RefusedError) return error;
    throw error;
  }
}

const cuts: Record<'CSV' | 'XLSX' | 'JSON', (chance: Dice) => void> = {
  CSV(chance) {
    const length = chance.whole(0, table.length - 1);
    const cut = table.subarray(0, length);
    const refused = refusalOf(() => triedCsv(cut));
    if (refused !== null) return mustSayWhere(refused, length);
    const { ready, refusals, counts } = triedCsv(cut);
    for (const { row, message } of refusals)
      must(row !== undefined && message !== '', 'broken', `cut at ${length}: ${message}`);
    must(counts.rows === ready.length + counts.bad, 'partial', `cut at ${length}: a row is neither ready nor refused`);
    // A line broken off within a text reads as that text: nothing in such a file shows it. Every row before it is whole.
    const lines = cut.toString('utf8').split('\n').length;
    for (const row of ready) {
      if (row.row >= lines) continue;
      const wanted = whole.ready.find((one) => one.row === row.row);
      mustEqual(row.cells, wanted?.cells, 'undetected', `cut at ${length}: row ${row.row}`);
    }
  },
  XLSX(chance) {
    const length = chance.whole(0, workbook.length - 1);
    const refused = refusalOf(() => openWorkbook(workbook.slice(0, length), 'list.xlsx').read(0, null));
    must(refused !== null, 'undetected', `a workbook cut at ${length} of ${workbook.length} bytes was read`);
    mustEqual(refused.refusal.file, 'list.xlsx', 'broken', `cut at ${length}: the file that is named`);
  },
  JSON(chance) {
    // Its last line break may go.
    const length = chance.whole(0, plan.toString('utf8').trimEnd().length - 1);
    const text = plan.toString('utf8').slice(0, length);
    const refused = refusalOf(() => readPlan(text));
    must(refused !== null, 'undetected', `a plan cut at ${length} was read`);
    must(refused.message !== '', 'broken', `a plan cut at ${length} is refused without a word`);
    must(refused.refusal.row !== undefined || length === 0, 'broken', `a plan cut at ${length}: ${refused.message}`);
  },
};

function mustSayWhere({ refusal, message }: RefusedError, length: number): void {
  must(message !== '' && refusal.file === 'list.csv', 'broken', `cut at ${length}: ${message}`);
}

const kinds = ['CSV', 'XLSX', 'JSON'] as const;

export const truncatedImports: Part = {
  of: 'F9',
  fault: 'a CSV file, a workbook or a plan file broken off anywhere',
  trials: 300,
  open: () => ({ trial: (n, chance) => cuts[kinds[n % kinds.length] ?? 'CSV'](chance) }),
};
