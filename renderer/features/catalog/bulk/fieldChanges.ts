import type { Item } from '../../../../shared-types/records/item.ts';
import { cellOfItem, itemColumns } from '../../../engine/catalog/index.ts';
import type { ItemTableColumn } from '../../../engine/catalog/index.ts';
import { valueOfText } from '../../../engine/catalog/itemOfCells.ts';
import { faultsOf } from '../../../engine/records/faultsOf.ts';
import type { Act } from '../../../store/store.ts';
import { withValue } from '../../../components/RecordForm/draft.ts';
import { fieldsOf } from '../itemFields.ts';
import type { ItemField } from '../itemFields.ts';
import { countOf } from '../words.ts';

/** A field that all items in hand have, so that it can be set in all of them. */
export interface BulkField {
  column: ItemTableColumn;
  /** As the forms call it; of several kinds that call it otherwise, every name. */
  label: string;
  type: ItemField['type'];
}

/** One item, before and after. */
export interface FieldRow {
  item: Item;
  before: string;
  after: string;
  /** Why it cannot be changed so; null where it can. */
  why: string | null;
}

export interface FieldChanges {
  rows: FieldRow[];
  /** Those that say so already. */
  same: number;
  /** Items as they would be. */
  changed: Item[];
}

/** A code and a serial number tell one item from another; kind, state, kit and place have deeds of their own. */
const never: ReadonlySet<string> = new Set(['code', 'kind', 'serial', 'retired', 'kit', 'keptAt']);

/** The fields that make sense for every one of them, in the order of the table. */
export function fieldsForAll(items: readonly Item[]): BulkField[] {
  const kinds = [...new Set(items.map(({ kind }) => kind))];
  return itemColumns.flatMap((column): BulkField[] => {
    if (never.has(column.name) || kinds.length === 0 || !kinds.every((kind) => column.kinds.includes(kind))) return [];
    const fields = kinds.flatMap((kind) => fieldsOf(kind).filter(({ path }) => path === column.path));
    const [first] = fields;
    if (first === undefined || fields.length < kinds.length) return [];
    return [{ column, label: [...new Set(fields.map(({ label }) => label))].join(' or '), type: first.type }];
  });
}

/** Every item with one field set to the text as typed, checked as its form checks it. An empty text takes the field away. Nothing is written here. */
export function fieldChanges(items: readonly Item[], { column }: BulkField, typed: string): FieldChanges {
  const text = typed.trim();
  const read = text === '' ? { value: undefined } : valueOfText(column.type, text);
  const found: FieldChanges = { rows: [], same: 0, changed: [] };
  for (const item of items) {
    const before = cellOfItem(item, column);
    if ('why' in read) {
      found.rows.push({ item, before, after: text, why: read.why });
      continue;
    }
    const made = withValue(item, column.path, read.value) as Item;
    const after = cellOfItem(made, column);
    if (after === before) {
      found.same += 1;
      continue;
    }
    const [fault] = faultsOf('items', made);
    const why = fault === undefined ? null : fault.path === column.path ? fault.message : faultText(item, fault);
    found.rows.push({ item, before, after, why });
    if (why === null) found.changed.push(made);
  }
  return found;
}

/** What it does to another field, by that one's name. */
function faultText(item: Item, { path, message }: { path: string; message: string }): string {
  const label = fieldsOf(item.kind).find((field) => field.path === path)?.label ?? path;
  return label === '' ? message : `${label}: ${message}`;
}

export function fieldTitle({ label }: BulkField, changed: readonly Item[]): string {
  const what = changed.length === 1 ? (changed[0]?.code ?? '') : countOf(changed.length, 'item');
  return `Set “${label}” of ${what}`.slice(0, 200);
}

/** All of them as one act. */
export function fieldAct(field: BulkField, { changed }: FieldChanges): Act {
  return {
    action: 'edit-items',
    title: fieldTitle(field, changed),
    proposals: changed.map((put) => ({ table: 'items', put })),
  };
}
