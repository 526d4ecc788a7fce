/** A published table as transcribed: printed units, printed digits, and how it came to us. */
import { headRows } from './handbook/heads.ts';
import { lockingRows } from './handbook/locking.ts';
import { openingRows } from './handbook/openings.ts';
import { practiceRows } from './handbook/practice.ts';
import { preloadRows } from './handbook/preload.ts';
import { strengthRows } from './handbook/strength.ts';
import { threadRows } from './handbook/threads.ts';
import { toolRows } from './handbook/tools.ts';
import { torqueRows } from './handbook/torque.ts';
import { z } from './schema.ts';

export const tableSourceSchema = z.strictObject({
  title: z.string().min(1),
  number: z.string().min(1),
  edition: z.string().min(1),
  table: z.string().min(1),
  publisher: z.string().min(1),
});

export const obtainedSchema = z.enum(['text found', 'from memory', 'common practice']);

export type TableSource = z.infer<typeof tableSourceSchema>;
export type Obtained = z.infer<typeof obtainedSchema>;

export interface HandbookTable<Row> {
  key: string;
  topic: string;
  source: TableSource;
  /** Other numbers under which the same table is asked for. */
  aliases: string[];
  obtained: Obtained;
  confidence: string;
  notes: string;
  /** Where the document gives one tolerance for every torque it prints: percent of the value, either way. */
  tolerancePercent?: number | undefined;
  rowCount: number;
  /** Sum of every numeric column, so that a slipped digit is caught; a column of lists sums every entry. */
  columnSums: Record<string, number>;
  rows: Row[];
}

/** Where a value shown was published, and how it came to us. */
export interface Citation extends TableSource {
  key: string;
  obtained: Obtained;
}

/** The fields of a row, by the key of its table. Strict: a field the source does not print is refused. */
export const rowSchemas = {
  ...threadRows,
  ...strengthRows,
  ...headRows,
  ...openingRows,
  ...toolRows,
  ...torqueRows,
  ...lockingRows,
  ...preloadRows,
  ...practiceRows,
} as const;

export type TableKey = keyof typeof rowSchemas;
export type RowOf<Key extends TableKey> = z.infer<(typeof rowSchemas)[Key]>;
export type TableOf<Key extends TableKey> = HandbookTable<RowOf<Key>> & { key: Key };

/** A whole table with rows of the given shape. */
export function tableSchema<Row extends z.ZodType>(row: Row) {
  return z.strictObject({
    key: z.string().regex(/^[a-z0-9.-]+$/),
    topic: z.string().min(1),
    source: tableSourceSchema,
    aliases: z.array(z.string().min(1)),
    obtained: obtainedSchema,
    confidence: z.enum(['high', 'medium', 'low']),
    notes: z.string().min(1),
    tolerancePercent: z.number().positive().lt(100).optional(),
    rowCount: z.number().int().min(1),
    columnSums: z.record(z.string(), z.number()),
    rows: z.array(row).min(1),
  });
}
