import type { RowReading } from '../sheet/index.ts';
import type { StepNames } from '../stepTable/index.ts';
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

export type TargetName = 'callouts' | 'as-run' | 'items' | 'steps';

/** What a target needs to know to judge a row. */
export interface TargetContext {
  /** Of as-run records: the callouts they were made for, as typed. */
  callouts: readonly Readonly<Record<string, string>>[];
  /** Of items: the shelf for rows that name none. */
  shelf?: { id: string; name: string };
  /** Of items: the names of all shelves. */
  shelves?: readonly string[];
  /** Of steps: what they may name. */
  steps?: StepNames;
}

/** What a target is told of a row beside its cells. */
export interface RowAt {
  /** The kept row of the same key; nothing where there is none. */
  kept: Readonly<Record<string, string>> | undefined;
  /** Our columns that the file feeds. */
  fed: readonly string[];
}

/**
 * Reads one row and gathers in it what is refused.
 *
 * @returns the row as it is to be kept, where that is other than its cells
 */
export type RowReader = (row: RowReading, at: RowAt) => Record<string, string> | undefined;

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
  /** Whether columns that feed none of ours are kept with each row; they are, unless told. */
  keepsOthers?: boolean;
  /** The key of a row, where it is more than its key columns say. */
  keyOf?(cells: Readonly<Record<string, string>>, context: TargetContext): string;
  /** Begins one table: the reader of its rows. */
  begin(context: TargetContext): RowReader;
}
