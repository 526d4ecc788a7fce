import type { Delimiter } from './delimiter.ts';

/** A number with one comma in it and no point, and what follows. */
const oneComma = /^(\s*[+-]?)(\d+),(\d+)(?![\d.,])/;

/**
 * A number written with a decimal comma, as sheets delimited by ";" or tabs have them, with a point in its place. Three digits behind
 * the comma may be thousands: those stay as they are, and are refused where they are read.
 */
export function withPoint(text: string, delimiter: Delimiter): string {
  if (delimiter === ',' || !text.includes(',')) return text;
  return text.replace(oneComma, (all: string, sign: string, whole: string, decimals: string) =>
    isDecimal(whole, decimals) ? `${sign}${whole}.${decimals}` : all,
  );
}

/** Whether the comma can only be a decimal one: thousands come in threes, and no number of them begins with 0. */
function isDecimal(whole: string, decimals: string): boolean {
  return decimals.length !== 3 || whole.length > 3 || whole.startsWith('0');
}

/** Whether a cell is written with a comma that can only be a decimal one. */
export function hasDecimalComma(text: string): boolean {
  const [, , whole = '', decimals = ''] = oneComma.exec(text) ?? [];
  return decimals !== '' && isDecimal(whole, decimals);
}

/** Whether a number may be thousands where commas are decimal: 1.250. */
export function mayBeThousands(text: string): boolean {
  return /^\s*[+-]?[1-9]\d{0,2}(?:\.\d{3})+(?![\d.])/.test(text);
}
