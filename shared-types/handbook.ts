/** A published table as transcribed: printed units, printed digits, and how it came to us. */

export interface TableSource {
  title: string;
  number: string;
  edition: string;
  table: string;
  publisher: string;
}

export type Obtained = 'text found' | 'from memory' | 'common practice';

export interface HandbookTable<Row> {
  key: string;
  topic: string;
  source: TableSource;
  /** Other numbers under which the same table is asked for. */
  aliases: string[];
  obtained: Obtained;
  confidence: string;
  notes: string;
  rowCount: number;
  /** Sum of every numeric column, so that a slipped digit is caught. */
  columnSums: Record<string, number>;
  rows: Row[];
}
