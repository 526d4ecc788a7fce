/** Signs that a spreadsheet takes for the begin of a formula, full-width forms included. */
const sign = '[=+\\-@＝＋－＠]';
/** What may stand before such a sign and be passed over: blanks, quotation marks, NUL; nothing that parts cells. */
const passed = '(?:[^\\S\\t\\r\\n]|["\\0])*';

/** Where a text begins with what a spreadsheet may run, or with a control character; apostrophes before it make it a text. */
const begins = new RegExp(`^(?<kept>'*)(?:${passed}${sign}|[\\t\\r\\n\\0])`);
/**
 * The same within a text, behind a sign at which some spreadsheet parts cells or rows: one that parts at semicolons does not see the
 * quotation marks around a cell of a table delimited by commas.
 */
const within = new RegExp(`(?<parting>[,;\\t\\r\\n])(?<kept>'*)(?=${passed}${sign})`, 'g');
/** The begin of a text behind apostrophes, written by whatever program. */
const guarded = /^'+(?:\s*[=+\-@＝＋－＠]|[\t\r\0])/;
/** A number or a quantity with its sign: "+45 N·m", "-0.5", "+1/2 in". */
const signedNumber =
  /^\s*[+\-＋－]\s*(?:\d+(?:[.,]\d+)?|[.,]\d+)(?:[ -]\d+\/\d+|\/\d+)?\s*(?:%|[\p{L}°"″][\p{L}\d ·⋅*./²³"″-]*)?\s*$/u;

/**
 * The text of a cell as it was meant: of what `harmless` wrote the very text, and of a cell from elsewhere what stands behind the one
 * apostrophe that only keeps a spreadsheet from running it.
 *
 * @returns the text, and whether it is a formula: nothing that begins as one is ever evaluated
 */
export function cellText(cell: string): { text: string; isFormula: boolean } {
  if (cell.includes("'")) {
    const text = cell.replace(begins, (run) => run.replace("'", '')).replace(within, withOneLess);
    if (harmless(text) === cell) return { text, isFormula: false };
    if (guarded.test(cell)) return { text: cell.slice(1), isFormula: false };
  }
  return { text: cell, isFormula: beginsFormula(cell) };
}

function withOneLess(_run: string, parting: string, kept: string): string {
  return `${parting}${kept.slice(1)}`;
}

/** Whether a spreadsheet would take a text for a formula and it is no number. A "-" alone may begin a name, and does no harm unread. */
function beginsFormula(text: string): boolean {
  return /^\s*[=+@＝＋＠]/.test(text) && !signedNumber.test(text);
}

/**
 * A text as it stands harmless in a sheet that a person opens: with one apostrophe before what would be run, at its begin and wherever
 * another delimiter would part it, or before apostrophes that would be taken for it, so that `cellText` gives back the very text. A signed
 * number behind a delimiter stays as it is, for it is one in every sheet.
 */
export function harmless(text: string): string {
  const guardedWithin = text.replace(within, (run: string, parting: string, kept: string, at: number) =>
    kept === '' && isNumberFrom(text, at) ? run : `${parting}'${kept}`,
  );
  return begins.test(text) ? `'${guardedWithin}` : guardedWithin;
}

/** Whether a signed number fills the part of a text that a delimiter begins, and something that is no blank stands before it. */
function isNumberFrom(text: string, at: number): boolean {
  if (at < text.search(/\S/)) return false;
  const rest = text.slice(at + 1);
  const end = rest.search(new RegExp(`[${text[at] ?? ''}\\r\\n]`));
  const part = end === -1 ? rest : rest.slice(0, end);
  return signedNumber.test(part) && !part.trim().includes('\t') && !/^\D*,/.test(part);
}
