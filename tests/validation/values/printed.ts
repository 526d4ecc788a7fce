import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { noteCompared, noteDocument } from './compared.ts';

/** Values as a page prints them, with where they were read. */
export interface Printed<Row> {
  source: { title: string; number: string; edition: string; table: string; publisher: string };
  obtained: 'text found' | 'from memory';
  confidence: string;
  notes: string;
  rows: Row[];
}

export function printed<Row>(name: string): Printed<Row> {
  const path = fileURLToPath(new URL(`${name}.json`, import.meta.url));
  const text = readFileSync(path, 'utf8');
  const file = JSON.parse(text) as Printed<Row>;
  noteDocument({ name, source: file.source, text });
  return file;
}

/** "1.129 848 E-01", "58.0", "1030" as numbers. */
export function numberOf(text: string): number {
  return Number(text.replaceAll(' ', ''));
}

/** Half of the last digit printed; of a print with fixed significant digits, half of the last of those. */
function halfLastDigit(text: string, significantDigits?: number): number {
  const [digits = '', exponent = '0'] = text.replaceAll(' ', '').split('E');
  const decimals = digits.includes('.') ? digits.length - digits.indexOf('.') - 1 : 0;
  const power =
    significantDigits === undefined
      ? Number(exponent) - decimals
      : Math.floor(Math.log10(numberOf(text))) + 1 - significantDigits;
  return 0.5 * 10 ** power;
}

/** A print that its own formula misses by more than half of the last digit: by how much, and why. */
export interface Miss {
  by: number;
  reason: string;
}

/**
 * What is wrong with a computed value against its print, or null. A print that is named as missing its own formula has to miss it,
 * by no more than is stated: else the entry is stale or the program is wrong. `from` names the document where the test file reads
 * several that print the same.
 */
export function fault(
  computed: number,
  text: string,
  miss?: Miss,
  significantDigits?: number,
  from?: Printed<unknown>['source'],
): string | null {
  const half = halfLastDigit(text, significantDigits) * (1 + 1e-9);
  if (miss === undefined) return faultWithin(computed, text, half, from);
  const off = Math.abs(computed - numberOf(text));
  noteCompared({ computed, printed: text, off, tolerance: miss.by, miss: miss.reason }, from);
  const said = `computed ${computed}, printed ${text}`;
  if (off <= half) return `${said}: agrees, though it is named as "${miss.reason}"`;
  return off <= miss.by ? null : `${said}: ${off} off, more than the ${miss.by} of "${miss.reason}"`;
}

/** The same where the tolerance is the check's own, and not half of the last digit. */
export function faultWithin(
  computed: number,
  text: string,
  tolerance: number,
  from?: Printed<unknown>['source'],
): string | null {
  const off = Math.abs(computed - numberOf(text));
  noteCompared({ computed, printed: text, off, tolerance }, from);
  // Not the other way round: what is no number is a fault.
  return off <= tolerance ? null : `computed ${computed}, printed ${text}: ${off} off, the tolerance is ${tolerance}`;
}
