import type { Item } from '../../../shared-types/records/item.ts';
import { columnsOfKind, type CellType, type ItemTableColumn } from './itemColumns.ts';

/**
 * What stands at a path of a record.
 *
 * @param path - dotted, as `opening.size`
 * @returns undefined where nothing does
 */
export function atPath(record: object, path: string): unknown {
  let value: unknown = record;
  if (!path.includes('.')) return (record as Record<string, unknown>)[path];
  for (const name of path.split('.')) {
    if (typeof value !== 'object' || value === null) return undefined;
    value = (value as Record<string, unknown>)[name];
  }
  return value;
}

/**
 * A field's value as a cell has it: as typed, so that the same text makes the same value again.
 *
 * @returns an empty text for a field that is not there
 */
export function valueText(type: CellType, value: unknown): string {
  if (value === undefined || value === null) return '';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (Array.isArray(value)) return value.join('; ');
  if (typeof value === 'object') return type.is === 'strength' ? stressText(value) : JSON.stringify(value);
  return String(value);
}

const stresses = [
  ['proofMPa', 'proof'],
  ['yieldMPa', 'yield'],
  ['ultimateMPa', 'ultimate'],
] as const;

function stressText(value: object): string {
  const given: Record<string, unknown> = { ...value };
  return stresses
    .flatMap(([key, word]) => (given[key] === undefined ? [] : [`${word} ${String(given[key])} MPa`]))
    .join(', ');
}

/**
 * One cell of an item.
 *
 * @returns its text as typed; empty where the item's kind has no such field
 */
export function cellOfItem(item: Item, column: ItemTableColumn): string {
  return column.kinds.includes(item.kind) ? valueText(column.type, atPath(item, column.path)) : '';
}

/**
 * An item as a row of the table.
 *
 * @returns its filled cells by the names of their columns
 */
export function cellsOfItem(item: Item): Record<string, string> {
  const cells: Record<string, string> = {};
  for (const column of columnsOfKind(item.kind)) {
    const text = valueText(column.type, atPath(item, column.path));
    if (text !== '') cells[column.name] = text;
  }
  return cells;
}
