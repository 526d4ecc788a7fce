import type { Citation, HandbookTable, Obtained, TableSource } from '../../../shared-types/handbook.ts';
import { RefusedError } from '../errors.ts';

/** A table as far as a citation needs it. */
export interface Citable {
  key: string;
  source: TableSource;
  obtained: Obtained;
}

/** Where a table's values come from; a row that came another way than its table says so itself. */
export function citationOf(table: Citable, row: { obtained_row?: Obtained | undefined } = {}): Citation {
  return { key: table.key, ...table.source, obtained: row.obtained_row ?? table.obtained };
}

/** A document and its table in one line: "ISO 4014, Table 1". */
function tableName(table: { source: TableSource }): string {
  return `${table.source.number}, ${table.source.table}`;
}

/**
 * The rows of a table that have a value in a column; exactly that value, never a neighbour.
 *
 * @returns at least one row
 * @throws RefusedError not-held where there is none, naming the values that are held
 */
export function rowsWhere<Row extends object, Column extends keyof Row & string>(
  table: HandbookTable<Row>,
  column: Column,
  value: Row[Column],
): Row[] {
  const found = table.rows.filter((row) => row[column] === value);
  if (found.length > 0) return found;
  const held = [...new Set(table.rows.map((row) => String(row[column])))];
  throw new RefusedError({
    code: 'not-held',
    message: `${tableName(table)} holds no row with ${column} ${String(value)}. Held are: ${held.join(', ')}.`,
    field: column,
    value,
  });
}

/**
 * The one row of a table that has a value in a column.
 *
 * @throws RefusedError not-held where there is none, contradiction where several rows have it
 */
export function rowWhere<Row extends object, Column extends keyof Row & string>(
  table: HandbookTable<Row>,
  column: Column,
  value: Row[Column],
): Row {
  const [row, second] = rowsWhere(table, column, value);
  if (row !== undefined && second === undefined) return row;
  throw new RefusedError({
    code: 'contradiction',
    message: `${tableName(table)} has several rows with ${column} ${String(value)}; a second column must tell them apart.`,
    field: column,
    value,
  });
}

/**
 * The number in a cell. An empty cell is not zero.
 *
 * @throws RefusedError not-held where the source prints nothing there
 */
export function numberAt<Row extends object, Column extends keyof Row & string>(
  table: HandbookTable<Row>,
  row: Row,
  column: Column,
): number {
  const value: unknown = row[column];
  if (typeof value === 'number' && Number.isFinite(value)) return value;
  const first = Object.values(row)[0];
  throw new RefusedError({
    code: 'not-held',
    message: `${tableName(table)} prints no ${column} for ${String(first)}.`,
    field: column,
    value: value ?? null,
  });
}
