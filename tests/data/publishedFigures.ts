/** Reads what an item's notes say is published, and looks it up in the handbook. */
import { tablesByDocument } from '../../renderer/engine/handbook/index.ts';

interface PublishedFigure {
  /** "opening 9/16 in" */
  what: string;
  document: string;
  row: string;
}

interface ReadNotes {
  published: PublishedFigure[];
  /** The clause after "Assumed:" or "Invented:", to its full stop; empty where there is none. */
  assumed: string;
  invented: string;
}

type Row = Record<string, unknown>;

const figurePattern = /^(?<what>.+?) \((?<document>.+?), row (?<row>.+?)(?:, from memory)?\)$/;

export function readNotes(notes: string): ReadNotes {
  const clause = (word: string) => new RegExp(`${word}: (.*?)\\.(?: |$)`).exec(notes)?.[1] ?? '';
  const published = clause('Published');
  return {
    published: published === '' ? [] : published.split('; ').map(figure),
    assumed: clause('Assumed'),
    invented: clause('Invented'),
  };
}

function figure(text: string): PublishedFigure {
  const read = figurePattern.exec(text)?.groups;
  if (!read) throw new Error(`names no document and row: ${text}`);
  return { what: read['what'] ?? '', document: read['document'] ?? '', row: read['row'] ?? '' };
}

/** The numbers of a text as printed: "range 15 to 75 lbf·ft" has "15" and "75", "opening 1-1/8 in" has "1-1/8". */
function printedNumbers(text: string): string[] {
  return text.match(/T\d+|\d+(?:-\d+\/\d+|\/\d+|\.\d+)?/g) ?? [];
}

/** Whether a row's field prints this number. */
function prints(row: Row, number: string): boolean {
  return Object.values(row).some(
    (value) => value === number || (typeof value === 'number' && value === Number(number)),
  );
}

/** The rows of a document that a text names: by the row's own name, or by a number and unit that stand in it. */
export function handbookRows(document: string, rowName: string): Row[] {
  const rows: Row[] = tablesByDocument(document).flatMap((table) => table.rows as unknown as Row[]);
  const plain = rowName.replace('·', '*');
  const named = rows.filter((row) => [plain, Number(plain)].includes(Object.values(row)[0] as string | number));
  if (named.length > 0) return named;
  const unit = /lbf\*(?:in|ft)$/.exec(plain)?.[0];
  const numbers = printedNumbers(rowName);
  return rows.filter(
    (row) => unit !== undefined && row['unit'] === unit && numbers.every((number) => prints(row, number)),
  );
}

/** Whether the document really prints that figure in that row. */
export function isPublished({ what, document, row }: PublishedFigure): boolean {
  const numbers = printedNumbers(what);
  if (numbers.length === 0) return false;
  return handbookRows(document, row).some((held) => numbers.every((number) => prints(held, number)));
}
