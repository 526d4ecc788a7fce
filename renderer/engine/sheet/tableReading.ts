import type { Refusal } from '../../../shared-types/errors.ts';
import type { Kind, Unit } from '../units/index.ts';
import { hasDecimalComma } from './decimalComma.ts';
import { Memo } from './memo.ts';
import type { Table } from './readTable.ts';
import { RowReading } from './rowReading.ts';
import type { SheetRecord } from './splitTable.ts';

/** A quantity of a cell, in the unit asked for and as typed. */
export interface CellQuantity {
  value: number;
  /** The unit it was typed with. */
  unit: Unit;
  /** The number it was typed with, in that unit. */
  number: number;
  text: string;
}

/** Reads a table's rows field by field and gathers what cannot be read, so that all of it is told in one go. */
export class TableReading {
  readonly table: Table;
  readonly refusals: Refusal[];
  /** Whether some cell has a comma that can only be a decimal one: a point before three digits may then be thousands. */
  readonly hasDecimalCommas: boolean;
  private readonly memos = new Map<string, Memo<CellQuantity>>();

  /** @param quantities - the columns that hold numbers */
  constructor(table: Table, quantities: readonly string[]) {
    this.table = table;
    this.refusals = [...table.ragged];
    this.hasDecimalCommas = table.delimiter !== ',' && holdsDecimalCommas(table, quantities);
  }

  row(record: SheetRecord): RowReading {
    return new RowReading(this, record);
  }

  /** What was read of the texts of one kind, in one unit. */
  memo(kind: Kind, unit: Unit): Memo<CellQuantity> {
    const key = `${kind} ${unit}`;
    const known = this.memos.get(key) ?? new Memo<CellQuantity>();
    this.memos.set(key, known);
    return known;
  }

  /** What was refused, in the order of the file's lines. */
  inOrder(): Refusal[] {
    return this.refusals.toSorted((a, b) => (a.row ?? 0) - (b.row ?? 0));
  }
}

function holdsDecimalCommas(table: Table, quantities: readonly string[]): boolean {
  const positions = quantities.flatMap((name) => table.columns.get(name) ?? []);
  return table.records.some(({ cells }) => positions.some((at) => hasDecimalComma(cells[at] ?? '')));
}
