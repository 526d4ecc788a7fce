/** Where a cell stands: "B12" is column 1 (the first being 0) of row 12. */
export interface CellRef {
  column: number;
  row: number;
}

/** A spreadsheet's own limits. */
const [columnsMost, rowsMost] = [16_384, 1_048_576];

/** The place a reference names; null where it names none. */
export function cellRef(text: string): CellRef | null {
  const [, letters = '', digits = ''] = /^\$?([A-Z]{1,3})\$?([1-9]\d{0,6})$/.exec(text) ?? [];
  if (letters === '') return null;
  let column = 0;
  for (const letter of letters) column = column * 26 + (letter.charCodeAt(0) - 64);
  const row = Number(digits);
  return column > columnsMost || row > rowsMost ? null : { column: column - 1, row };
}

/** "B12" of column 1 and row 12. */
export function cellName({ column, row }: CellRef): string {
  let letters = '';
  for (let rest = column + 1; rest > 0; rest = Math.floor((rest - 1) / 26))
    letters = String.fromCharCode(65 + ((rest - 1) % 26)) + letters;
  return `${letters}${row}`;
}

export interface CellRange {
  from: CellRef;
  to: CellRef;
}

/** "A1:F1", or a single cell; null where it is neither. */
export function cellRange(text: string): CellRange | null {
  const [one = '', other = one, ...rest] = text.split(':');
  const [from, to] = [cellRef(one), cellRef(other)];
  return from === null || to === null || rest.length > 0 || to.row < from.row || to.column < from.column
    ? null
    : { from, to };
}
