import { cellText } from '../sheet/cellText.ts';

/**
 * A cell of a file as it is kept: without the apostrophe that only keeps a spreadsheet from running it, so that what was copied out of a
 * list comes back as it was typed.
 *
 * @param cell - as it stands in the file
 * @param isRead - whether a rule reads its column: there the apostrophe stays before what would be a formula without it
 */
export function typedCell(cell: string, isRead: boolean): string {
  const { text } = cellText(cell);
  return isRead && cellText(text).isFormula ? cell : text;
}
