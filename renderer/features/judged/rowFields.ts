import type { EntryKind } from '../../components/QuantityField/QuantityField.tsx';
import { columnNamed } from '../../engine/inspection/index.ts';

export interface RowField {
  /** The column's name. */
  path: string;
  label: string;
  is: 'text' | 'choice' | 'quantity';
  of?: EntryKind;
  choices?: readonly { value: string; label: string }[];
  optional?: boolean;
  hint?: string;
}

export interface RowFieldGroup {
  title: string;
  fields: readonly RowField[];
  folded?: boolean;
}

/** A field of words that may be left empty. */
export const textOf = (path: string, label: string, hint?: string): RowField => ({
  ...{ path, label, is: 'text', optional: true },
  ...(hint === undefined ? {} : { hint }),
});

/** A field of a number with its unit that may be left empty. */
export const quantityOf = (path: string, label: string, of: EntryKind, hint?: string): RowField => ({
  ...textOf(path, label, hint),
  is: 'quantity',
  of,
});

/** Columns of a list that no rule reads; the form keeps them under keys without dots. */
export function otherColumns(columns: readonly string[], read: readonly string[]): { path: string; column: string }[] {
  const known = new Set(read.map((name) => columnNamed(columns, name)));
  return columns.filter((column) => !known.has(column)).map((column, at) => ({ path: `other${at}`, column }));
}
