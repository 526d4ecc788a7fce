import type { RowReading } from '../sheet/index.ts';
import type { Kind } from '../units/index.ts';

/** What the cells of a column are. Only a time may come from a cell that a spreadsheet shows as a date. */
export type ColumnKind = 'text' | 'size' | 'word' | 'number' | 'quantity' | 'time';

/** A column of ours that a column of the file may feed. */
export interface ImportColumn {
  name: string;
  /** In a few words, with an example. */
  meaning: string;
  kind: ColumnKind;
  /** Of a quantity: what its unit measures. */
  unitKind?: Kind;
  /** Other names people give it; compared without case, blanks and signs. */
  aliases: readonly string[];
}

export type TargetName = 'callouts' | 'as-run';

/** What a target needs to know to judge a row. */
export interface TargetContext {
  /** Of as-run records: the callouts they were made for, as typed. */
  callouts: readonly Readonly<Record<string, string>>[];
}

/** What rows are brought in as. */
export interface ImportTarget {
  name: TargetName;
  /** "callout", "callouts" */
  words: { one: string; many: string };
  columns: readonly ImportColumn[];
  /** The columns it cannot do without: one of several sets. */
  needed: readonly (readonly string[])[];
  /** The columns that tell one row from every other. */
  key: readonly string[];
  /** Begins one table: the reader of its rows, which gathers in the row what it refuses. */
  begin(context: TargetContext): (row: RowReading) => void;
}
