import { cellText, harmless } from './cellText.ts';

/** A text as a cell that is read back as this very text: as it is, unless a reader would see a formula in it or take a sign from it. */
export function exactCell(text: string): string {
  const read = cellText(text);
  return read.text === text && !read.isFormula ? text : harmless(text);
}
