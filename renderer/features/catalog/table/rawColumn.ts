import type { Item } from '../../../../shared-types/records/item.ts';
import { cellOfItem, itemColumns } from '../../../engine/catalog/index.ts';
import type { ItemTableColumn } from '../../../engine/catalog/index.ts';

const byName = new Map(itemColumns.map((column) => [column.name, column]));
const named = (name: string): ItemTableColumn | undefined => byName.get(name);

/** Columns of the screen that show a field under another key than its own. */
const shownAs: Record<string, (item: Item) => string> = {
  sizes: ({ kind }) =>
    ({
      fastener: 'thread',
      socket: 'openingSize',
      extension: 'length',
      driver: 'drive',
      'torque-tool': 'max',
      gear: 'ratedMass',
      bag: 'massMax',
    })[kind],
  ratedTorque: ({ kind }) => (kind === 'driver' ? 'max' : 'ratedTorque'),
  drive: ({ kind }) => (kind === 'extension' ? 'driveIn' : 'drive'),
  opening: () => 'openingSize',
  calibration: () => 'calibrationDue',
};

/** A column that the screen adds for a field has this before the field's name. */
export const fieldPrefix = 'field-';

/** The number on a thing's label: given with the labels, and read-only here. */
export const labelKey = 'label';

/** The field that a cell of the screen stands for; undefined where the item has none there. */
export function rawColumn(key: string, item: Item): ItemTableColumn | undefined {
  const name = key.startsWith(fieldPrefix) ? key.slice(fieldPrefix.length) : (shownAs[key]?.(item) ?? key);
  const column = named(name);
  return column?.kinds.includes(item.kind) === true ? column : undefined;
}

/** A cell as it was typed, whatever units are shown. */
export function rawText(key: string, item: Item): string {
  if (key === labelKey) return item.tag?.toString() ?? '';
  const column = rawColumn(key, item);
  return column === undefined ? '' : cellOfItem(item, column);
}
