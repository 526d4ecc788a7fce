import { RefusedError } from '../errors.ts';
import type { SheetRecord } from './splitTable.ts';

/** More columns than a person names. */
const columnsMost = 256;

/** A column's name as it is compared: without case and without the blanks around it. */
export function squeezed(name: string): string {
  return name.trim().toLowerCase();
}

/**
 * The header's names. Empty ones at its end are no columns where nothing stands under them either.
 *
 * @param rows - what stands below it, gone through only where the header ends in an empty name
 * @throws RefusedError too-large, missing-field: a column without a name; duplicate-key: a column twice
 */
export function headerNames(header: SheetRecord, rows: () => Iterable<SheetRecord>): string[] {
  const width = header.cells.length;
  if (width > columnsMost) {
    throw new RefusedError({
      code: 'too-large',
      message: `The header has ${width} columns; at most ${columnsMost} are read.`,
      row: header.row,
    });
  }
  const names = header.cells.map((cell) => cell.trim());
  while (names.at(-1) === '' && isBlankBelow(rows(), names.length - 1)) names.pop();
  const seen = new Set<string>();
  for (const [at, name] of names.entries()) {
    if (name === '') {
      throw new RefusedError({
        code: 'missing-field',
        message: `Column ${at + 1} of the header has no name: one cell for each column is asked for, none of them merged.`,
        row: header.row,
      });
    }
    if (seen.has(squeezed(name))) {
      throw new RefusedError({
        code: 'duplicate-key',
        message: `The header names the column "${name}" twice.`,
        row: header.row,
        field: name,
      });
    }
    seen.add(squeezed(name));
  }
  return names;
}

function isBlankBelow(rows: Iterable<SheetRecord>, column: number): boolean {
  for (const { cells } of rows) if ((cells[column] ?? '').trim() !== '') return false;
  return true;
}
