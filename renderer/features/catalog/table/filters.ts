import type { Item } from '../../../../shared-types/records/item.ts';
import { RefusedError } from '../../../engine/errors.ts';
import { itemColumns } from '../../../engine/catalog/index.ts';
import { readQuantity } from '../../../engine/units/index.ts';
import type { Kind } from '../../../engine/units/index.ts';
import type { ItemColumn, Shown } from '../columns.ts';
import { quantitySize } from '../columns.ts';
import { fieldPrefix, labelKey, rawText } from './rawColumn.ts';

/** What a column lets through. An empty part asks nothing. */
export type ColumnFilter =
  | { is: 'text'; contains: string }
  | { is: 'range'; from: string; to: string }
  | { is: 'choice'; value: string };

/** How a column can be filtered. */
export type FilterForm =
  | { is: 'text' }
  | { is: 'choice'; values: readonly string[] }
  | { is: 'range'; of: Kind | 'number' | 'day'; example: string };

const examples: Partial<Record<Kind, string>> = { length: '12 mm', mass: '350 g', torque: '60 N·m', volume: '0.5 L' };

const formsByKey: Record<string, FilterForm> = {
  sizes: { is: 'text' },
  ratedTorque: { is: 'range', of: 'torque', example: '60 N·m' },
  opening: { is: 'range', of: 'length', example: '12 mm' },
  calibration: { is: 'range', of: 'day', example: '2027-03-31' },
  [labelKey]: { is: 'range', of: 'number', example: '12' },
};

export function filterForm(key: string): FilterForm {
  const own = formsByKey[key];
  if (own !== undefined) return own;
  const name = key.startsWith(fieldPrefix) ? key.slice(fieldPrefix.length) : key;
  const type = itemColumns.find((column) => column.name === name)?.type;
  if (type?.is === 'quantity') return { is: 'range', of: type.of, example: examples[type.of] ?? '' };
  if (type?.is === 'head-size') return { is: 'range', of: 'length', example: '12 mm' };
  if (type?.is === 'whole' || type?.is === 'number') return { is: 'range', of: 'number', example: '4' };
  if (type?.is === 'day') return { is: 'range', of: 'day', example: '2027-03-31' };
  if (type?.is === 'yes-no') return { is: 'choice', values: ['yes', 'no'] };
  if (type?.is === 'choice') return { is: 'choice', values: type.values };
  return { is: 'text' };
}

export function isEmptyFilter(filter: ColumnFilter): boolean {
  if (filter.is === 'text') return filter.contains.trim() === '';
  return filter.is === 'choice' ? filter.value === '' : filter.from.trim() === '' && filter.to.trim() === '';
}

/** Why an end of a range cannot be read; null where it can, or is empty. */
export function endFault(of: Kind | 'number' | 'day', text: string, example: string): string | null {
  if (text.trim() === '') return null;
  if (of === 'number') return numberOf(text) === null ? `"${text}" is no number: write it as ${example}.` : null;
  if (of === 'day')
    return /^\d{4}-\d{2}-\d{2}$/.test(text.trim()) && !Number.isNaN(Date.parse(text.trim()))
      ? null
      : `"${text}" is no day: write it as ${example}.`;
  try {
    readQuantity(text.trim(), of);
    return null;
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    return `"${text}" is not read: write it with its unit, as ${example}.`;
  }
}

function numberOf(text: string): number | null {
  return /^[+-]?(?:\d+\.?\d*|\.\d+)$/.test(text.trim()) ? Number(text) : null;
}

/** A size lies on its limit where it is equal but for the rounding of a conversion. */
const slack = 1e-9;

type Test = (item: Item) => boolean;

function rangeTest(key: string, of: Kind | 'number' | 'day', ends: { from: string; to: string }): Test {
  const [from, to] = [ends.from.trim(), ends.to.trim()];
  if (of === 'day')
    return (item) => {
      const day = rawText(key, item);
      return day !== '' && (from === '' || day >= from) && (to === '' || day <= to);
    };
  const end = (text: string, none: number): number =>
    text === '' ? none : of === 'number' ? (numberOf(text) ?? none) : (quantitySize(text) ?? none);
  const least = end(from, -Infinity);
  const most = end(to, Infinity);
  return (item) => {
    const text = rawText(key, item);
    if (text === '') return false;
    const size = of === 'number' ? Number(text) : quantitySize(text);
    // What is named instead of measured, as T27, has no size to compare.
    if (!Number.isFinite(size) || (of !== 'number' && /^[A-Z]/i.test(text))) return false;
    return size >= least - slack * Math.abs(least) && size <= most + slack * Math.abs(most);
  };
}

/** The filters as one question to a row; null where nothing is asked. An end that cannot be read asks nothing. */
export function filterTest(
  filters: Readonly<Record<string, ColumnFilter>>,
  columns: readonly ItemColumn[],
  shown: Shown,
): Test | null {
  const tests = Object.entries(filters).flatMap(([key, filter]): Test[] => {
    if (isEmptyFilter(filter)) return [];
    const column = columns.find((one) => one.key === key);
    if (column === undefined) return [];
    const form = filterForm(key);
    if (filter.is === 'choice') return [(item) => rawText(key, item) === filter.value];
    if (filter.is === 'range') {
      if (form.is !== 'range') return [];
      const good = (text: string): string => (endFault(form.of, text, '') === null ? text : '');
      return [rangeTest(key, form.of, { from: good(filter.from), to: good(filter.to) })];
    }
    const part = filter.contains.trim().toLowerCase();
    return [
      (item) =>
        column.text(item, shown).toLowerCase().includes(part) || rawText(key, item).toLowerCase().includes(part),
    ];
  });
  return tests.length === 0 ? null : (item) => tests.every((test) => test(item));
}

/** A filter in words: "Mass 0.1 kg to 1 kg". An end that cannot be read is said to ask nothing. */
export function filterText(key: string, label: string, filter: ColumnFilter): string {
  if (filter.is === 'text') return `${label} has “${filter.contains.trim()}”`;
  if (filter.is === 'choice') return `${label} is ${filter.value}`;
  const form = filterForm(key);
  const said = (text: string): string => {
    const end = text.trim();
    return form.is === 'range' && endFault(form.of, end, '') !== null ? `“${end}” (not read, asks nothing)` : end;
  };
  const [from, to] = [said(filter.from), said(filter.to)];
  if (from === '') return `${label} up to ${to}`;
  return to === '' ? `${label} from ${from}` : `${label} ${from} to ${to}`;
}
