import { itemKinds, type Item, type ItemKind } from '../../../shared-types/records/item.ts';
import { RefusedError } from '../errors.ts';
import { readQuantity } from '../units/index.ts';
import type { Kind } from '../units/index.ts';
import { faultsOf } from '../records/faultsOf.ts';
import { columnAtPath, columnsOfKind, itemColumns, type CellType } from './itemColumns.ts';

/** What is wrong with a cell. */
export interface CellFault {
  column: string;
  message: string;
}

/** The item that a row makes, or everything that keeps it from being one. */
export type ItemOfCells = { item: Item; faults: readonly [] } | { item: null; faults: readonly CellFault[] };

/** Where the item comes to lie. */
export interface ItemHead {
  id: string;
  rev: number;
  shelf: string;
  position?: number | undefined;
  /** The number on its label, which no table changes. */
  tag?: number | undefined;
}

const kindNames = new Map<string, ItemKind>([
  ...itemKinds.map((kind) => [kind, kind] as const),
  ['torque tool', 'torque-tool'],
  ['torquetool', 'torque-tool'],
  ['bit', 'socket'],
  ['socket or bit', 'socket'],
  ['carry gear', 'gear'],
]);

/**
 * The kind that a cell names.
 *
 * @param text - as written; whatever its case, one or several
 * @returns null where it is none
 */
function kindOfText(text: string): ItemKind | null {
  const bare = text.trim().toLowerCase();
  return kindNames.get(bare) ?? kindNames.get(bare.replace(/s$/, '')) ?? null;
}

/**
 * An item out of a row's texts, checked as the form checks it. Cells of fields that the kind does not have are refused:
 * what they say would be lost without a word.
 *
 * @param cells - by the names of `itemColumns`; empty ones are not there
 * @param head - its key and shelf
 */
export function itemOfCells(cells: Readonly<Record<string, string>>, head: ItemHead): ItemOfCells {
  const kindText = cells['kind'] ?? '';
  const kind = kindOfText(kindText);
  if (kind === null) {
    const message = kindText === '' ? 'is empty' : `"${kindText}" is none of ${itemKinds.join(', ')}`;
    return { item: null, faults: [{ column: 'kind', message }] };
  }
  const { position, tag, ...key } = head;
  const draft: Draft = { ...key, kind, retired: false, parts: 1, kit: 'field' };
  if (position !== undefined) draft['position'] = position;
  if (tag !== undefined) draft['tag'] = tag;
  const faults: CellFault[] = [];
  const own = columnsOfKind(kind);
  for (const { name, path, type } of own) {
    const text = cells[name];
    if (name === 'kind' || text === undefined || text.trim() === '') continue;
    const read = valueOfText(type, text.trim());
    if ('why' in read) faults.push({ column: name, message: read.why });
    else setAt(draft, path, read.value);
  }
  for (const name in cells) {
    const kinds = kindsOfColumn.get(name);
    if (kinds !== undefined && !kinds.includes(kind) && (cells[name] ?? '').trim() !== '')
      faults.push({ column: name, message: `is no field of a ${kind}: leave it empty` });
  }
  const sizes = faults.length === 0 ? sizesOf(draft, cells) : null;
  if (sizes !== null && sound.has(sizes)) return { item: draft as unknown as Item, faults: [] };
  const refused = new Set(faults.map(({ column }) => column));
  for (const { path, message } of faultsOf('items', draft)) {
    const column = columnAtPath(path)?.name ?? missingWithin(path) ?? 'code';
    if (refused.has(column)) continue;
    refused.add(column);
    faults.push({ column, message });
  }
  // A record without its shape is read no further there: what a size refuses by itself is told all the same.
  if (faults.length > 0)
    for (const { name, type } of own) {
      const why = type.is === 'quantity' && !refused.has(name) ? quantityFault(cells[name] ?? '', type.of) : null;
      if (why !== null) faults.push({ column: name, message: why });
    }
  if (sizes !== null && faults.length === 0 && sound.size < soundMost) sound.add(sizes);
  // What `faultsOf` has nothing against is of the schema's shape.
  return faults.length > 0 ? { item: null, faults } : { item: draft as unknown as Item, faults: [] };
}

/**
 * Rows with the same sizes are checked once: of a depot's many thousand rows few differ in more than code, words and
 * place, and what may stand there is told by its length alone.
 */
const sound = new Set<string>();
const soundMost = 20_000;
const words = new Set(['code', 'name', 'notes', 'keptAt', 'serial', 'onHand']);
/** What a code and a serial number may hold at most; words may be longer. */
const shortMost = 200;

/** All that a row says beside its words, in one text; null where its words must be looked at too. */
function sizesOf(draft: Draft, cells: Readonly<Record<string, string>>): string | null {
  const code = draft['code'];
  if (typeof code !== 'string' || code === '') return null;
  const onHand = draft['onHand'];
  let sizes = onHand === undefined ? 'none\n' : 'some\n';
  for (const name in cells) {
    const text = cells[name] ?? '';
    if (!words.has(name)) sizes += `${name}\t${text}\n`;
    else if (text.length > shortMost) return null;
  }
  return sizes;
}

const kindsOfColumn = new Map(itemColumns.map(({ name, kinds }) => [name, kinds]));

function quantityFault(text: string, kind: Kind): string | null {
  if (text.trim() === '') return null;
  try {
    readQuantity(text.trim(), kind);
    return null;
  } catch (error) {
    if (error instanceof RefusedError) return error.refusal.message;
    throw error;
  }
}

/** A group of fields that is wholly missing is told at the first of its columns. */
function missingWithin(path: string): string | undefined {
  return itemColumns.find((column) => column.path.startsWith(`${path}.`))?.name;
}

type Draft = Record<string, unknown>;

function setAt(draft: Draft, path: string, value: unknown): void {
  const dot = path.indexOf('.');
  if (dot < 0) {
    draft[path] = value;
    return;
  }
  const outer = path.slice(0, dot);
  const held = (draft[outer] ??= {}) as Draft;
  held[path.slice(dot + 1)] = value;
}

/** A text as the value of a field, or why it is none. Quantities stay as typed: the record's own check reads them. */
export function valueOfText(type: CellType, text: string): { value: unknown } | { why: string } {
  switch (type.is) {
    case 'whole':
      return /^[+]?\d{1,15}$/.test(text) ? { value: Number(text) } : { why: `"${text}" is no whole number, as 4` };
    case 'number':
      return numberOfText(text);
    case 'yes-no':
      return yesNoOfText(text);
    case 'list':
      return { value: text.split(/\s*(?:;|\n)\s*/).filter((one) => one !== '') };
    case 'strength':
      return strengthOfText(text);
    case 'choice': {
      const bare = text.toLowerCase();
      const found = type.values.find((value) => value.toLowerCase() === bare || spoken(value) === spoken(text));
      if (found !== undefined) return { value: found };
      const kind = type.values.length === itemKinds.length ? kindOfText(text) : null;
      return kind === null ? { why: `"${text}" is none of ${type.values.join(', ')}` } : { value: kind };
    }
    default:
      return { value: text };
  }
}

const spoken = (text: string): string => text.toLowerCase().replaceAll(/[\s_-]/g, '');

function numberOfText(text: string): { value: number } | { why: string } {
  const [, digits = '', percent = ''] = /^([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)\s*(%?)$/i.exec(text) ?? [];
  if (digits === '') return { why: `"${text}" is no number, as 0.04` };
  const value = percent === '' ? Number(digits) : Number(`${digits}e-2`);
  return Number.isFinite(value) ? { value } : { why: `"${text}" is no number, as 0.04` };
}

function yesNoOfText(text: string): { value: boolean } | { why: string } {
  const bare = text.toLowerCase();
  if (bare === 'yes' || bare === 'true') return { value: true };
  if (bare === 'no' || bare === 'false') return { value: false };
  return { why: `"${text}" is neither yes nor no` };
}

/** "proof 600 MPa, yield 640 MPa": the stresses themselves; anything else names a class or grade. */
function strengthOfText(text: string): { value: unknown } | { why: string } {
  if (!/\b(?:proof|yield|ultimate)\b/i.test(text)) return { value: text };
  const stresses: Record<string, number> = {};
  for (const part of text.split(/\s*,\s*/)) {
    const { word = '', size = '' } =
      /^(?<word>proof|yield|ultimate)\s+(?<size>\d+(?:\.\d+)?)\s*(?:MPa)?$/i.exec(part)?.groups ?? {};
    if (word === '') return { why: `"${part}" is no stress: write it as "proof 600 MPa, yield 640 MPa"` };
    stresses[`${word.toLowerCase()}MPa`] = Number(size);
  }
  return { value: stresses };
}
