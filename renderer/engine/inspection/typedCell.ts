import { cellText } from '../sheet/cellText.ts';

/**
 * A cell of a file as it is kept: without the apostrophe that only keeps a spreadsheet from running it, so that what was copied out of a
 * list comes back as it was typed.
 *
 * @param cell - as it stands in the file
 * @param isRead - whether a rule reads its column: there apostrophes stay before what would be read otherwise without them
 */
export function typedCell(cell: string, isRead: boolean): string {
  const { text } = cellText(cell);
  const again = cellText(text);
  return isRead && (again.isFormula || again.text !== text) ? cell : text;
}
