import { itemColumns } from '../../../engine/catalog/index.ts';
import type { ItemTableColumn } from '../../../engine/catalog/index.ts';
import { quantitySize, sortText } from '../columns.ts';
import type { ItemColumn } from '../columns.ts';
import { quantityText } from '../fieldText.ts';
import { fieldsOf } from '../itemFields.ts';
import { kindWords } from '../words.ts';
import type { Segment } from '../words.ts';
import { fieldPrefix, labelKey, rawText } from './rawColumn.ts';

/** What a field is called where it is typed; the shorter of several names. */
function labelOf({ name, path, kinds }: ItemTableColumn): string {
  if (name === 'retired') return 'Retired';
  const labels = kinds.flatMap((kind) => fieldsOf(kind).find((field) => field.path === path)?.label ?? []);
  return labels.toSorted((a, b) => a.length - b.length)[0] ?? name;
}

function made(column: ItemTableColumn): ItemColumn {
  const { name, type } = column;
  const key = fieldPrefix + name;
  const isNumber = type.is === 'quantity' || type.is === 'head-size' || type.is === 'whole' || type.is === 'number';
  return {
    key,
    label: labelOf(column),
    width: isNumber ? '96px' : '132px',
    ...(isNumber ? { end: true } : {}),
    text: (item, { units }) => {
      const text = rawText(key, item);
      const shown = type.is === 'quantity' && text !== '';
      return shown ? quantityText(text, units === 'both' ? 'as-written' : units) : text;
    },
    sortKey: (item) => {
      const text = rawText(key, item);
      return isNumber ? quantitySize(text === '' ? undefined : text) : sortText(text === '' ? '\uffff' : text);
    },
  };
}

const label: ItemColumn = {
  key: labelKey,
  label: 'Label',
  width: '72px',
  end: true,
  text: (item) => rawText(labelKey, item),
  sortKey: (item) => item.tag ?? Infinity,
};

/** Columns that the screen shows under keys of its own. */
const shownOtherwise: Record<string, string> = { openingSize: 'opening', calibrationDue: 'calibration' };

const fields = new Map(itemColumns.map((column) => [column.name, made(column)]));

/** A column for every field that the columns at hand do not show yet, and one for the label. */
export function moreColumns(segment: Segment, has: readonly ItemColumn[]): ItemColumn[] {
  const keys = new Set(has.map(({ key }) => key));
  const typed = itemColumns.flatMap(({ name, kinds }) => {
    if (segment !== 'all' && !kinds.includes(segment)) return [];
    // Under "opening" the screen shows the size; the form is a field of its own.
    const shown = name === 'opening' ? '' : (shownOtherwise[name] ?? name);
    const column = fields.get(name);
    return keys.has(shown) || column === undefined ? [] : [column];
  });
  return keys.has(labelKey) ? typed : [...typed, label];
}

/** Which kinds have a field: said where columns of all kinds are listed. */
export function kindsText(key: string): string {
  const name = key.startsWith(fieldPrefix) ? key.slice(fieldPrefix.length) : key;
  const kinds = itemColumns.find((column) => column.name === name)?.kinds ?? [];
  return kinds.length > 3 ? '' : kinds.map((kind) => kindWords[kind].toLowerCase()).join(', ');
}
