import { expect, test } from 'vitest';
import type { Item } from '../../../shared-types/records/item.ts';
import { newItem } from '../../../renderer/engine/records/newItem.ts';
import { copiedCells } from '../../../renderer/features/catalog/cells/cellBlock.ts';
import { pastedChanges } from '../../../renderer/features/catalog/cells/pastedChanges.ts';
import { columnsOf } from '../../../renderer/features/catalog/columns.ts';
import { filterTest } from '../../../renderer/features/catalog/table/filters.ts';
import { moreColumns } from '../../../renderer/features/catalog/table/moreColumns.ts';

const gear = (code: string, tag?: number): Item =>
  ({
    ...newItem('gear', { id: code, shelf: 's' }),
    ...{ code, mass: '60 g', onHand: 2, use: 'other' },
    ...(tag === undefined ? {} : { tag }),
  }) as Item;
const rows = [gear('A', 20), gear('B', 3), gear('C')];
const shown = { units: 'both', today: '2026-11-26', shelfName: () => 'Crew' } as const;
const columns = [...columnsOf('gear', false), ...moreColumns('gear', columnsOf('gear', false))];
const label = columns.find(({ key }) => key === 'label');

test('the number on a label is a column of every kind, sorted and let through as a number', () => {
  if (label === undefined) throw new Error('there is no such column');
  expect(rows.map((item) => label.text(item, shown))).toEqual(['20', '3', '']);
  const sorted = rows.toSorted((a, b) => Number(label.sortKey(a)) - Number(label.sortKey(b)));
  expect(sorted.map(({ code }) => code)).toEqual(['B', 'A', 'C']);
  const let3 = filterTest({ label: { is: 'range', from: '', to: '9' } }, columns, shown);
  expect(rows.filter((item) => let3?.(item)).map(({ code }) => code)).toEqual(['B']);
});

test('it is copied, and never pasted over', () => {
  const block = { fromId: 'A', fromColumn: 'label', toId: 'B', toColumn: 'label' };
  expect(copiedCells(block, rows, columns)).toBe('20\n3');
  const pasted = pastedChanges([['7']], { block, rows, columns });
  expect(pasted.changed).toEqual([]);
  expect(pasted.cells.map(({ item, why }) => [item.code, why])).toEqual([
    ['A', 'a label’s number is given with its labels, and never changed'],
    ['B', 'a label’s number is given with its labels, and never changed'],
  ]);
});
