import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

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
  return JSON.parse(readFileSync(path, 'utf8')) as Printed<Row>;
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
 * by no more than is stated: else the entry is stale or the program is wrong.
 */
export function fault(computed: number, text: string, miss?: Miss, significantDigits?: number): string | null {
  const off = Math.abs(computed - numberOf(text));
  const half = halfLastDigit(text, significantDigits) * (1 + 1e-9);
  const said = `computed ${computed}, printed ${text}`;
  if (miss === undefined) return off <= half ? null : `${said}: ${off} off, half of the last digit is ${half}`;
  if (off <= half) return `${said}: agrees, though it is named as "${miss.reason}"`;
  return off <= miss.by ? null : `${said}: ${off} off, more than the ${miss.by} of "${miss.reason}"`;
}
