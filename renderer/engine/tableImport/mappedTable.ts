import { cellText } from '../sheet/cellText.ts';
import { dateReason } from '../sheet/dateLike.ts';
import type { Grid, GridRecord } from '../sheet/grid.ts';
import type { RowReading, Table } from '../sheet/index.ts';
import { readUnit, type Unit } from '../units/index.ts';
import { isBareNumber } from './bareNumber.ts';
import type { Feed, Mapping } from './guessMapping.ts';
import type { ImportColumn, ImportTarget } from './importTarget.ts';

interface FedColumn extends Feed {
  at: number;
  column: string;
  of: ImportColumn;
}

/** A file's table under our names. */
export interface MappedTable {
  table: Table;
  records: readonly GridRecord[];
  /** The row as it is read: bare numbers have the unit their header says. */
  cellsOf(record: GridRecord): string[];
  /** Refuses what no reader of texts could tell: dates where sizes belong, formulas, errors, a unit other than the header's. */
  refuseOdd(record: GridRecord, row: RowReading): void;
  /** What is kept of a row: its filled cells, ours by our names, the others by the file's. */
  keptCells(record: GridRecord): Record<string, string>;
  /** The names cells are kept under, in the file's order. */
  keptColumns: string[];
}

/** A file's rows with our names on its columns. Rows are made ready one by one, as they are asked for. */
export function mappedTable(grid: Grid, mapping: Mapping, target: ImportTarget): MappedTable {
  const fed = mapping.flatMap(({ column, unit }, at): FedColumn[] => {
    const of = target.columns.find(({ name }) => name === column);
    return column === null || of === undefined ? [] : [{ at, column, unit, of }];
  });
  const withUnit = fed.filter(({ unit }) => unit !== null);
  const others = grid.names.flatMap((name, at) => (fed.some((one) => one.at === at) ? [] : [{ name, at }]));
  const cellsOf = ({ cells }: GridRecord): string[] => {
    if (withUnit.length === 0) return cells;
    const ready = [...cells];
    for (const { at, unit } of withUnit) {
      const cell = ready[at] ?? '';
      if (unit !== null && isBareNumber(cell)) ready[at] = `${cell.trim()} ${unit}`;
    }
    return ready;
  };
  const keptName = (name: string): string =>
    target.columns.some((column) => column.name.toLowerCase() === name.trim().toLowerCase())
      ? `${name} (as given)`
      : name;
  const names = grid.names.map((name, at) => fed.find((one) => one.at === at)?.column ?? keptName(name));
  const records = {
    *[Symbol.iterator]() {
      for (const record of grid.records) yield { row: record.row, cells: cellsOf(record) };
    },
  };
  const table: Table = {
    ...{
      file: grid.file,
      encoding: grid.encoding,
      delimiter: grid.delimiter,
      ragged: [...grid.ragged],
      notes: grid.notes,
    },
    columns: new Map(fed.map(({ at, column }) => [column, at])),
    unknownColumns: others,
    records,
    wholeFile: records,
  };
  return {
    ...{ table, records: grid.records, cellsOf, keptColumns: names },
    refuseOdd(record, row) {
      for (const column of fed) refuseOddCell(record, column, row);
    },
    keptCells(record) {
      const kept: Record<string, string> = {};
      for (const [at, cell] of cellsOf(record).entries()) {
        const name = names[at];
        if (name !== undefined && cell.trim() !== '') kept[name] = cell.trim();
      }
      return kept;
    },
  };
}

/** Beside what a workbook says of a cell: a number under a torque’s or a length’s unit may be that of a day, and forces are as large as that. */
function refuseOddCell({ cells, odd }: GridRecord, { at, column, unit, of }: FedColumn, row: RowReading): void {
  const cell = cells[at] ?? '';
  const kind = odd?.get(at)?.kind;
  if (kind === 'formula')
    row.refuse(column, 'wrong-shape', 'is a formula: formulas are not evaluated; write the value itself', cell);
  else if (kind === 'error') row.refuse(column, 'wrong-shape', 'is an error of the spreadsheet, and no value', cell);
  else if (kind === 'merged')
    row.refuse(column, 'missing-field', 'lies under merged cells and has no value of its own: part them');
  else if (kind === 'date' && of.kind !== 'time')
    row.refuse(
      column,
      'wrong-shape',
      'is a date, as a spreadsheet makes of a size like 3/8 or 3/4: write it as a text with its unit, "3/8 in"',
      cell,
    );
  else if (unit !== null) {
    const reason = of.unitKind === 'torque' || of.unitKind === 'length' ? dateReason(cell) : null;
    if (reason !== null) row.refuse(column, 'wrong-shape', reason, cell);
    else refuseOtherUnit(cell, { column, unit, row });
  }
}

/** What stands in the header holds for every cell under it; a cell that says otherwise is one of the two, and nobody can tell which. */
function refuseOtherUnit(cell: string, { column, unit, row }: { column: string; unit: Unit; row: RowReading }): void {
  const text = cellText(cell).text.trim();
  const said = /^[^\p{L}°"″%]*(?<unit>[\p{L}°"″].*)$/u.exec(text)?.groups?.['unit'];
  if (said === undefined || isBareNumber(text)) return;
  const own = row.attempt(column, text, () => readUnit(said).unit);
  if (own !== null && own !== unit)
    row.refuse(column, 'contradiction', `is in ${own}, and the header of its column says ${unit}`, text);
}
