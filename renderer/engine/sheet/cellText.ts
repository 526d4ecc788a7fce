/** What a spreadsheet may run: a sign it begins with, blanks before it and full-width forms included; or a control character. */
const runs = /^(?:\s*[=+\-@＝＋－＠]|[\t\r\0])/;
/** The same behind apostrophes that make it a text. */
const guarded = /^'+(?:\s*[=+\-@＝＋－＠]|[\t\r\0])/;
/** A number or a quantity with its sign: "+45 N·m", "-0.5", "+1/2 in". */
const signedNumber =
  /^\s*[+\-＋－]\s*(?:\d+(?:[.,]\d+)?|[.,]\d+)(?:[ -]\d+\/\d+|\/\d+)?\s*(?:[\p{L}%°"″][\p{L}\d ·⋅*./²³"″-]*)?\s*$/u;

/**
 * The text of a cell as it was meant: one apostrophe before what a spreadsheet would run only makes it a text.
 *
 * @returns the text, and whether it is a formula: nothing that begins as one is ever evaluated
 */
export function cellText(cell: string): { text: string; isFormula: boolean } {
  if (guarded.test(cell)) return { text: cell.slice(1), isFormula: false };
  return { text: cell, isFormula: beginsFormula(cell) };
}

/** Whether a spreadsheet would take a text for a formula and it is no number. A "-" alone may begin a name, and does no harm unread. */
function beginsFormula(text: string): boolean {
  return /^\s*[=+@＝＋＠]/.test(text) && !signedNumber.test(text);
}

/**
 * A text as it stands harmless in a sheet that a person opens: with one apostrophe before what would be run, or before apostrophes
 * that would be taken for it, so that `cellText` gives back the very text.
 */
export function harmless(text: string): string {
  return runs.test(text) || guarded.test(text) ? `'${text}` : text;
}
