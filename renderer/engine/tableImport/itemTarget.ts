import { itemKinds } from '../../../shared-types/records/item.ts';
import { cellsOfItem, itemColumns, itemOfCells } from '../catalog/index.ts';
import type { RowReading } from '../sheet/index.ts';
import type { ImportColumn, ImportTarget } from './importTarget.ts';

const imported: readonly ImportColumn[] = [
  {
    name: 'shelf',
    meaning: 'name of its shelf; empty: the one chosen here',
    kind: 'text',
    aliases: ['stock', 'shelf name'],
  },
  ...itemColumns.map(({ name, meaning, aliases, type }): ImportColumn => {
    if (type.is === 'quantity') return { name, meaning, kind: 'quantity', unitKind: type.of, aliases };
    if (type.is === 'head-size') return { name, meaning, kind: 'size', aliases };
    if (type.is === 'day') return { name, meaning, kind: 'time', aliases };
    return { name, meaning, kind: type.is === 'choice' || type.is === 'yes-no' ? 'word' : 'text', aliases };
  }),
];

const sizes = new Set(itemColumns.flatMap(({ name, type }) => (type.is === 'head-size' ? [name] : [])));
const quantities = new Set(itemColumns.flatMap(({ name, type }) => (type.is === 'quantity' ? [name] : [])));

/** A spreadsheet writes a day with its time. */
const dayOf = (text: string): string => /^(\d{4}-\d{2}-\d{2})[T ]00:00(?::00)?$/.exec(text)?.[1] ?? text;

function textOf(row: RowReading, name: string): string | null {
  if (quantities.has(name)) return row.quantityText(name);
  if (sizes.has(name)) return row.sized(name);
  const text = row.text(name);
  return text !== null && name === 'calibrationDue' ? dayOf(text) : text;
}

/**
 * Items of every kind, found by their code within a shelf. A column that the file does not have leaves what is kept; an
 * empty cell of one that it has empties the field.
 */
export const itemTarget: ImportTarget = {
  name: 'items',
  words: { one: 'item', many: 'items' },
  columns: imported,
  needed: [['code']],
  key: ['code'],
  keepsOthers: false,
  keyOf: (cells, { shelf }) =>
    `${(cells['shelf'] ?? '').trim() || (shelf?.name ?? '')} / ${(cells['code'] ?? '').trim()}`,
  begin({ shelf, shelves = [] }) {
    return (row, { kept, fed }) => {
      const cells: Record<string, string> = { ...kept, shelf: '' };
      const named = fed.includes('shelf') ? row.text('shelf') : null;
      const on = named ?? shelf?.name ?? '';
      if (named !== null && !shelves.includes(named))
        row.refuse('shelf', 'unknown-id', `is no shelf here: there are ${shelves.join(', ')}`, named);
      for (const name of fed) {
        if (name === 'shelf') continue;
        const text = textOf(row, name);
        if (text !== null) cells[name] = text;
        // What tells the row from others is never emptied; a kind once given stays.
        else if (name !== 'kind') cells[name] = '';
      }
      if ((cells['kind'] ?? '') === '') {
        row.refuse(
          'kind',
          'missing-field',
          `is empty: an item that is not on the shelf yet is one of ${itemKinds.join(', ')}`,
        );
        return undefined;
      }
      const { item, faults } = itemOfCells(cells, { id: 'row', rev: 0, shelf: 'row' });
      for (const { column, message } of faults)
        row.refuse(column, message.startsWith('is missing') ? 'missing-field' : 'wrong-shape', message, cells[column]);
      return item === null ? undefined : { shelf: on, ...cellsOfItem(item) };
    };
  },
};
