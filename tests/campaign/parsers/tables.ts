/** Readers of tables: CSV, workbooks, pasted rows, each tried whole as an import would be; and the commands that judge them. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { csvGrid, pastedGrid } from '../../../renderer/engine/sheet/csvGrid.ts';
import type { Grid } from '../../../renderer/engine/sheet/grid.ts';
import { openWorkbook } from '../../../renderer/engine/sheet/xlsx/index.ts';
import { importTargets } from '../../../renderer/engine/tableImport/index.ts';
import type { Dice } from '../../reference/dice.ts';
import { told } from '../../electron/headless/inProcess.ts';
import { damagedText } from '../../engine/damagedInputs.ts';
import { book, bookParts, packed, textRow } from '../../engine/sheet/xlsx/packed.ts';
import { tried } from '../../engine/tableImport/tried.ts';
import { must } from '../part.ts';
import { damagedBytes, refused, type FuzzReader } from './reader.ts';

const demo = fileURLToPath(new URL('../../../data/demo/', import.meta.url));
const headOf = (name: string): string => readFileSync(join(demo, name), 'utf8').split('\n').slice(0, 6).join('\n');

export const calloutTable = headOf('tarn-array-callouts.csv');
const asRunTable = headOf('tarn-array-as-run.csv');
const known = importTargets.callouts.columns.map(({ name }) => name);

/** Every row is ready, or its cells are told with row and reason. */
function mustTell(grid: Grid): unknown {
  const { ready, refusals, counts } = tried(grid);
  for (const { row, message, field } of refusals)
    must(message !== '' && (row !== undefined || field !== undefined), 'broken', `refused without a place: ${message}`);
  // The same cell may be refused for two reasons; a row is bad once.
  must(
    ready.length + counts.bad === counts.rows,
    'partial',
    `${ready.length} ready and ${counts.bad} bad of ${counts.rows}`,
  );
  return refusals.length > 0 ? refused : ready;
}

const pastedText = calloutTable.replaceAll(/,(?=(?:[^"]*"[^"]*")*[^"]*$)/gm, '\t');

export const sound = book({
  rows: `${textRow(1, ['id', 'torque'])}<row r="2"><c r="A2" t="s"><v>0</v></c><c r="B2" s="1"><v>45359</v></c></row>`,
  strings: ['C-1'],
  stylesXml: '<styleSheet><cellXfs><xf numFmtId="0"/><xf numFmtId="14"/></cellXfs></styleSheet>',
  behind: '<mergeCells><mergeCell ref="A4:B4"/></mergeCells>',
});

/** Read whole or refused with file and reason. */
export function wholeWorkbook(bytes: Uint8Array): unknown {
  const workbook = openWorkbook(bytes, 'f.xlsx');
  const grids: Grid[] = [];
  for (const index of workbook.sheets.keys()) grids.push(workbook.read(index, null));
  return grids;
}

const pieces = [
  ...['<row r="2">', '</row>', '<row>', '<c r="A2">', '<c r="B2" t="s">', '<c t="b" s="1">', '</c>', '<v>', '</v>'],
  ...['<v>1</v>', '<f>A1</f>', '<is><t>x</t></is>', '<t>', '</t>', '0', '45359', '&amp;', '&#0;', '<![CDATA[', ']]>'],
  ...['<!--', '-->', '<!DOCTYPE x>', '<mergeCell ref="A1:B2"/>', '<dimension ref="A1"/>', '"', "'", '<x:c/>', '>'],
];

const someOf = (chance: Dice, most: number): string =>
  Array.from({ length: chance.whole(0, most) }, () => chance.pick(pieces)).join('');

/** Any text in any of its parts. */
function oddPart(chance: Dice): Uint8Array {
  const which = chance.whole(0, 6);
  const parts = bookParts({ rows: textRow(1, ['id']) }).map((part, index) => {
    if (index !== which || typeof part.content !== 'string') return part;
    const at = chance.whole(0, 400);
    return {
      ...part,
      content: `${part.content.slice(0, at)}${damagedText(someOf(chance, 5), chance)}${part.content.slice(at)}`,
    };
  });
  return packed(parts);
}

const judged = (name: string, args: (csv: string) => Parameters<typeof told>[1][]): FuzzReader => ({
  ...{ name: `command ${name}`, weight: 1 },
  async read(chance) {
    const text = damagedText(name === 'asrun' ? asRunTable : calloutTable, chance);
    const answer = await told<unknown>(name, ...args(text));
    if (answer.exit !== 2) return answer.result;
    must(answer.error.code !== 'internal', 'broken', `${name}: ${answer.error.message}`);
    return refused;
  },
});

export const tableReaders: readonly FuzzReader[] = [
  {
    ...{ name: 'a CSV table, its texts damaged', weight: 2 },
    read: (chance) => mustTell(csvGrid({ content: damagedText(calloutTable, chance), file: 'list.csv', known })),
  },
  {
    ...{ name: 'a CSV file, its bytes damaged', weight: 2 },
    read: (chance) =>
      mustTell(csvGrid({ content: damagedBytes(Buffer.from(calloutTable), chance), file: 'list.csv', known })),
  },
  {
    ...{ name: 'pasted rows', weight: 2 },
    read: (chance) =>
      mustTell(pastedGrid({ text: damagedText(pastedText, chance), hasHeader: chance.chance(0.7), known })),
  },
  {
    ...{ name: 'a workbook, its bytes damaged', weight: 4 },
    read: (chance) => wholeWorkbook(damagedBytes(sound, chance)),
  },
  {
    ...{ name: 'a workbook, its sheet damaged', weight: 4 },
    read: (chance) => wholeWorkbook(book({ rows: `${textRow(1, ['id', 'torque'])}${someOf(chance, 40)}` })),
  },
  { ...{ name: 'a workbook, a part damaged', weight: 4 }, read: (chance) => wholeWorkbook(oddPart(chance)) },
  judged('callouts', (csv) => [{ csv }]),
  judged('asrun', (csv) => [{ csv }, '--callouts', { csv: headOf('tarn-array-callouts.csv') }]),
];
