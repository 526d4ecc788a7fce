import type { RefusalCode } from '../../../shared-types/errors.ts';
import { RefusedError } from '../errors.ts';
import { exactOf, leastFullPrecision, type Exact } from './exact.ts';

/** A number at the head of a text, and where the text goes on. */
export interface Numeral {
  value: number;
  /** As typed, without the blanks around it. */
  text: string;
  form: 'decimal' | 'fraction';
  /** Index of the first character after it. */
  end: number;
}

const signed = /\s*(?<sign>[+-]|−)?/y;
/** The plain hyphen, and the two of Unicode that are nothing else; the longer dashes stand for a range or a minus. */
const hyphen = '[-\u2010\u2011]';
const mixed = new RegExp(String.raw`(?<whole>\d+)(?:\s+|${hyphen})(?<numerator>\d+)\/(?<denominator>\d+)`, 'y');
const fraction = /(?<numerator>\d+)\/(?<denominator>\d+)/y;
const decimal = /(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?/y;
const exactFraction = new RegExp(
  String.raw`^(?<sign>-?)(?:(?<whole>\d+)(?:\s+|${hyphen}))?(?<top>\d+)\/(?<bottom>\d+)$`,
);
const vulgar = /[¼-¾⅐-⅞↉⁄]/;

/** The number as typed with no binary rounding. A double that parsed bounds its exponent, and so the digits needed here. */
export function exactOfNumeral(numeral: Numeral): Exact {
  if (numeral.form === 'decimal') return exactOf(numeral.text);
  const { sign, whole = '0', top = '0', bottom = '1' } = exactFraction.exec(numeral.text)?.groups ?? {};
  const tops = BigInt(whole) * BigInt(bottom) + BigInt(top);
  return { numerator: sign === '-' ? -tops : tops, denominator: BigInt(bottom) };
}

function at(form: RegExp, text: string, index: number): RegExpExecArray | null {
  form.lastIndex = index;
  return form.exec(text);
}

function refuse(code: RefusalCode, text: string, position: number, why: string): RefusedError {
  return new RefusedError({ code, message: `"${text}" ${why}`, value: text, position });
}

/**
 * The number a quantity begins with: a decimal, a fraction or a mixed number.
 *
 * @returns its value, the digits as typed, and where the text goes on
 * @throws RefusedError unreadable-quantity, ambiguous-quantity (a comma or blank inside the digits), not-finite
 */
export function readNumber(text: string): Numeral {
  const head = at(signed, text, 0);
  const sign = head?.groups?.['sign'];
  const start = head?.[0].length ?? 0;
  if (text.trim() === '') throw refuse('unreadable-quantity', text, 0, 'is empty: a number with a unit is asked for.');
  const rest = text.slice(start);
  if (/^(?:∞|nan\b|inf(?:inity)?\b)/i.test(rest)) throw refuse('not-finite', text, start, 'is not a finite quantity.');
  if (/^0[xXbBoO]/.test(rest)) throw refuse('unreadable-quantity', text, start, 'is no decimal number.');
  const numeral = readUnsigned(text, start);
  if (numeral === undefined) throw refuseHead(text, start);
  refuseRunOn(text, start, numeral);
  if (sign === undefined || sign === '+') return numeral;
  // Taken from 0, so that "-0 N" is 0 and not the negative zero of doubles.
  return { ...numeral, text: `-${numeral.text}`, value: 0 - numeral.value };
}

function readUnsigned(text: string, start: number): Numeral | undefined {
  const withWhole = at(mixed, text, start) ?? at(fraction, text, start);
  if (withWhole !== null) {
    const { whole = '0', numerator = '', denominator = '' } = withWhole.groups ?? {};
    const end = start + withWhole[0].length;
    if (Number(denominator) === 0) throw refuse('unreadable-quantity', text, end - denominator.length, 'divides by 0.');
    if (withWhole.groups?.['whole'] !== undefined && Number(numerator) >= Number(denominator)) {
      throw refuse(
        'unreadable-quantity',
        text,
        end - withWhole[0].length,
        'has a whole number before a fraction that is not below 1.',
      );
    }
    const value = (Number(whole) * Number(denominator) + Number(numerator)) / Number(denominator);
    if (!Number.isFinite(value)) throw refuse('not-finite', text, start, 'is too large to hold.');
    return { value, text: withWhole[0], form: 'fraction', end };
  }
  const plain = at(decimal, text, start);
  if (plain === null) return undefined;
  const value = Number(plain[0]);
  if (!Number.isFinite(value)) throw refuse('not-finite', text, start, 'is too large to hold.');
  if (value < leastFullPrecision && /[1-9]/.test(plain[0].split(/e/i)[0] ?? '')) {
    throw refuse('not-finite', text, start, 'is too small to hold: it would lose digits or become 0.');
  }
  return { value, text: plain[0], form: 'decimal', end: start + plain[0].length };
}

function refuseHead(text: string, start: number): RefusedError {
  const character = text[start] ?? '';
  if (vulgar.test(character)) return refuseVulgar(text, start);
  if (/^[\p{L}°"″”%]/u.test(character))
    return refuse('unreadable-quantity', text, start, 'has no number before its unit.');
  return refuse('unreadable-quantity', text, start, 'does not begin with a number, as "45 lbf·ft" or "7/16 in" does.');
}

function refuseVulgar(text: string, position: number): RefusedError {
  return refuse(
    'unreadable-quantity',
    text,
    position,
    'has a fraction in one character: write it out, as "1/2 in" or "0.5 in".',
  );
}

/** What follows the digits decides whether they were the whole number. */
function refuseRunOn(text: string, start: number, numeral: Numeral): void {
  const { end } = numeral;
  const rest = text.slice(end);
  const grouped = /^(?:[\d.\u2009\s,'’_]*\d)/.exec(text.slice(start))?.[0] ?? '';
  if (/^(?:[,_]\d|['’\s]+\d{3}(?![\d/]))/.test(rest)) {
    throw refuse(
      'ambiguous-quantity',
      text,
      end,
      `can be read in two ways: ${bothSpellings(grouped, text.slice(start + grouped.length))}.`,
    );
  }
  const next = rest.trimStart();
  const position = end + rest.length - next.length;
  if (vulgar.test(next[0] ?? '')) throw refuseVulgar(text, position);
  if (/^[\d/.]|^[+−\p{Pd}]\s*[\d.]/u.test(next)) {
    throw refuse(
      'unreadable-quantity',
      text,
      position,
      'goes on with a second number: one number and one unit are asked for.',
    );
  }
}

/** The two right spellings of digits with separators in them. */
function bothSpellings(grouped: string, unit: string): string {
  const parts = grouped.split(/[.,'’_\s]+/);
  const last = parts.at(-1) ?? '';
  const oneKind = new Set(grouped.replace(/\d/g, '').replace(/\s+/g, ' ')).size === 1;
  const joined = parts.join('');
  const lastAsPoint = `${parts.slice(0, -1).join('')}.${last}`;
  const firstAsPoint = `${parts[0] ?? ''}.${parts.slice(1).join('')}`;
  const written = unit.trim();
  const quoted = (digits: string) => `"${written === '' ? digits : `${digits} ${written}`}"`;
  return oneKind
    ? `write ${quoted(joined)} or ${quoted(firstAsPoint)}`
    : `write ${quoted(lastAsPoint)} or ${quoted(firstAsPoint)}`;
}
