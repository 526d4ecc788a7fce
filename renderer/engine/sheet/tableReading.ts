import type { Refusal } from '../../../shared-types/errors.ts';
import { hasDecimalComma } from './decimalComma.ts';
import { PlainQuantities } from './plainQuantity.ts';
import type { Table } from './readTable.ts';
import { RowReading } from './rowReading.ts';
import type { SheetRecord } from './splitTable.ts';

/** Reads a table's rows field by field and gathers what cannot be read, so that all of it is told in one go. */
export class TableReading {
  readonly table: Table;
  readonly refusals: Refusal[] = [];
  /** Whether some cell has a comma that can only be a decimal one: a point before three digits may then be thousands. */
  readonly hasDecimalCommas: boolean;
  readonly plain = new PlainQuantities();

  /** @param quantities - the columns that hold numbers */
  constructor(table: Table, quantities: readonly string[]) {
    this.table = table;
    this.hasDecimalCommas = table.delimiter !== ',' && holdsDecimalCommas(table, quantities);
  }

  row(record: SheetRecord): RowReading {
    return new RowReading(this, record);
  }

  /** What was refused, in the order of the file's lines, rows of the wrong length among them. */
  inOrder(): Refusal[] {
    return [...this.table.ragged, ...this.refusals].toSorted((a, b) => (a.row ?? 0) - (b.row ?? 0));
  }
}

function holdsDecimalCommas(table: Table, quantities: readonly string[]): boolean {
  const positions = quantities.flatMap((name) => table.columns.get(name) ?? []);
  for (const { cells } of table.wholeFile) if (positions.some((at) => hasDecimalComma(cells[at] ?? ''))) return true;
  return false;
}
