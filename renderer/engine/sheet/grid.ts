import type { Refusal } from '../../../shared-types/errors.ts';
import type { Encoding } from './decodeBytes.ts';
import type { Delimiter } from './delimiter.ts';
import type { SheetRecord } from './splitTable.ts';

/** A cell of a workbook that is more than the text it is given as. */
export interface OddCell {
  /** A date is given as "2024-03-08", a formula as its own words, an error as the sheet shows it, the rest of merged cells as nothing. */
  kind: 'date' | 'formula' | 'error' | 'merged';
}

export interface GridRecord extends SheetRecord {
  /** By column; null where every cell is a text. */
  odd: ReadonlyMap<number, OddCell> | null;
}

/** A table of texts under named columns, whatever it came in: before anybody says what its columns mean. */
export interface Grid {
  file: string;
  source: 'csv' | 'workbook' | 'paste';
  /** Of a workbook: which. */
  sheet: string | null;
  /** Null where it came as text, or as a workbook. */
  encoding: Encoding | null;
  /** What decimal commas are told from thousands by; of a workbook as of a table with tabs. */
  delimiter: Delimiter;
  /** The line the header stands in; 0 where it was given none. */
  headerRow: number;
  names: string[];
  records: GridRecord[];
  /** Rows with more cells than the header: none of `records`. */
  ragged: Refusal[];
  notes: string[];
}
