/**
 * The number on a label: 12 digits, which bars and squares carry and a person can type.
 *
 *   k nnnnnn ppp cc   kind, number of the thing, its piece, two check digits
 */
import { RefusedError } from '../errors.ts';

const kindDigits = { item: '1', bag: '2', manifest: '3' } as const;

export type TagKind = keyof typeof kindDigits;

/** What a label names. */
export interface Tag {
  kind: TagKind;
  /** Number of the thing, unlike that of every other; of a manifest, its revision. */
  tag: number;
  /** Which piece of it; 0 where its pieces are counted by number and all have the same label. */
  piece: number;
}

export const tagMost = 999_999;
export const pieceMost = 999;
export const tagDigits = 12;

/**
 * Check digits of a string of digits, pure system MOD 97-10.
 *
 *   98 − (N·100 mod 97), in two digits
 *
 * @param digits - N, one digit at least
 * @returns two digits: 02 to 98
 * @throws RefusedError where anything but digits stands in it
 * @source ISO/IEC 7064, simplified procedure for MOD 97-10, as quoted by a central bank's sheet on check digits
 * @validity finds every single wrong digit and every two neighbours swapped; lost and doubled digits are found by the length
 * @example checkDigits('794') // '44'
 */
export function checkDigits(digits: string): string {
  if (!/^\d+$/.test(digits))
    throw new RefusedError({ code: 'wrong-shape', message: 'check digits are of digits alone', value: digits });
  let remainder = 0;
  for (const digit of `${digits}00`) remainder = (remainder * 10 + Number(digit)) % 97;
  return String(98 - remainder).padStart(2, '0');
}

/**
 * What a label carries.
 *
 * @param tag - kind, number 1 to 999 999, piece 0 to 999
 * @returns 12 digits
 * @throws RefusedError for a number that no label can carry
 * @example tagText({ kind: 'item', tag: 123, piece: 4 }) // '100012300469'
 */
export function tagText({ kind, tag, piece }: Tag): string {
  if (!isWithin(tag, 1, tagMost))
    throw new RefusedError({ code: 'out-of-range', message: `a label’s number is 1 to ${tagMost}`, value: tag });
  if (!isWithin(piece, 0, pieceMost))
    throw new RefusedError({ code: 'out-of-range', message: `a label’s piece is 0 to ${pieceMost}`, value: piece });
  const body = kindDigits[kind] + String(tag).padStart(6, '0') + String(piece).padStart(3, '0');
  return body + checkDigits(body);
}

const isWithin = (value: number, least: number, most: number): boolean =>
  Number.isInteger(value) && value >= least && value <= most;

/** What a text names, or why it names nothing. */
export type TagReading = { tag: Tag; text: string } | { refused: string };

/**
 * Reads a label's number as it was scanned or typed; blanks between its groups are passed over.
 *
 * @param typed - any text
 * @returns what it names and its 12 digits; or the reason why it is none of our labels, for a person
 */
export function readTag(typed: string): TagReading {
  const text = typed.replace(/\s/gu, '');
  const shown = text.length > 40 ? `${text.slice(0, 40)}…` : text;
  if (!/^\d+$/.test(text))
    return { refused: text === '' ? 'no label number' : `“${shown}” is no label number: that is 12 digits` };
  if (text.length !== tagDigits) {
    const digits = `${text.length} ${text.length === 1 ? 'digit' : 'digits'}`;
    return {
      refused: `“${shown}” has ${digits}, a label number has 12: something was lost, doubled or is of another kind`,
    };
  }
  const body = text.slice(0, -2);
  if (checkDigits(body) !== text.slice(-2))
    return { refused: `“${groupedTag(text)}”: the check digits do not fit, a digit is wrong` };
  const kind = (Object.keys(kindDigits) as TagKind[]).find((name) => kindDigits[name] === text[0]);
  if (kind === undefined)
    return { refused: `“${groupedTag(text)}” begins with ${text[0] ?? ''}: no label of ours does` };
  const tag = Number(text.slice(1, 7));
  if (tag === 0) return { refused: `“${groupedTag(text)}” names number 0, which nothing has` };
  return { tag: { kind, tag, piece: Number(text.slice(7, 10)) }, text };
}

/**
 * A label's 12 digits in the groups in which people read them.
 *
 * @param text - 12 digits
 * @returns kind, number, piece and check digits with blanks between
 * @example groupedTag('100012300469') // '1 000123 004 69'
 */
export function groupedTag(text: string): string {
  return [text.slice(0, 1), text.slice(1, 7), text.slice(7, 10), text.slice(10)].join(' ');
}
