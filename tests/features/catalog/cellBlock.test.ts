/** Cells that go over the clipboard: a spreadsheet runs none of them, and here each comes back as it was. */
import { expect, it } from 'vitest';
import { cellsIn, copiedCells } from '../../../renderer/features/catalog/cells/cellBlock.ts';
import type { ItemColumn } from '../../../renderer/features/catalog/columns.ts';
import type { Item } from '../../../shared-types/records/item.ts';

const names = ['=1+1', "'=1+1", 'x;=1+1', '@sum', '-5+A1', 'plain', '5/8 "', '"quoted"', 'two\nlines', "it's"];
const rows = names.map(
  (name, n): Item =>
    ({
      id: `i${n}`,
      rev: 1,
      code: `=C-${n}`,
      name,
      shelf: 'crew',
      retired: false,
      parts: 1,
      kit: 'field',
      kind: 'gear',
    }) as Item,
);
const columns = ['code', 'name'].map((key) => ({ key, label: key }) as ItemColumn);

it('stand harmless on the clipboard, and are read back to the last sign', () => {
  const block = { fromId: 'i0', fromColumn: 'code', toId: `i${names.length - 1}`, toColumn: 'name' };
  const text = copiedCells(block, rows, columns);
  for (const part of text.split(/[\t\n;]/)) expect(part).not.toMatch(/^[\s"]*[=+\-@]/);
  expect(cellsIn(text)).toEqual(rows.map(({ code, name }) => [code, name]));
});

it('from a spreadsheet are taken as they stand', () => {
  expect(cellsIn("-5 mm\t'=x\nit's\t5/8\"\n")).toEqual([
    ['-5 mm', '=x'],
    ["it's", '5/8"'],
  ]);
});
