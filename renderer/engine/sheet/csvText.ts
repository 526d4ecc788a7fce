import Papa from 'papaparse';
import { harmless } from './cellText.ts';

/**
 * A table as CSV (RFC 4180): texts that a spreadsheet would run are made harmless, numbers stand as they are, −5 too.
 *
 * @param fields - the header
 * @param rows - one cell for each field; null for an empty one
 */
export function csvText(fields: readonly string[], rows: readonly (readonly (string | number | null)[])[]): string {
  const data = rows.map((row) => row.map((cell) => (typeof cell === 'string' ? harmless(cell) : cell)));
  return `${Papa.unparse({ fields: fields.map(harmless), data }, { newline: '\r\n' })}\r\n`;
}
