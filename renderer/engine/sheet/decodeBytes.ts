import { RefusedError } from '../errors.ts';
import { cp1252Text } from './cp1252.ts';
import { TextBuilder } from './textBuilder.ts';
import { utf8Text } from './utf8.ts';

export type Encoding = 'UTF-8' | 'UTF-16LE' | 'UTF-16BE' | 'CP1252';

/**
 * The text of a file of a table, whatever spreadsheet wrote it.
 *
 * @param bytes - the whole file
 * @returns its text without byte order mark, and the encoding it was read in: UTF-8 where the bytes are that; UTF-16 by its mark or by
 *   the zeros beside its first letter; else CP1252, which the caller is to say
 * @throws RefusedError unreadable-file where the bytes are no text, or a workbook
 */
export function decodeBytes(bytes: Uint8Array): { text: string; encoding: Encoding } {
  const [first = 1, second = 1] = bytes;
  if (first === 0x50 && second === 0x4b && bytes[2] === 3)
    throw noText('is a workbook or another packed file, and no CSV: save the sheet as CSV.');
  if ((first === 0xff && second === 0xfe) || (first !== 0 && second === 0 && bytes.length > 1))
    return { text: utf16Text(bytes, { littleEndian: true }), encoding: 'UTF-16LE' };
  if ((first === 0xfe && second === 0xff) || (first === 0 && second !== 0 && bytes.length > 1))
    return { text: utf16Text(bytes, { littleEndian: false }), encoding: 'UTF-16BE' };
  const utf8 = utf8Text(bytes);
  if (utf8 !== null) return { text: checked(utf8), encoding: 'UTF-8' };
  return { text: checked(cp1252Text(bytes)), encoding: 'CP1252' };
}

function utf16Text(bytes: Uint8Array, { littleEndian }: { littleEndian: boolean }): string {
  if (bytes.length % 2 === 1) throw noText('is UTF-16 and ends in the middle of a character.');
  const text = new TextBuilder();
  for (let at = 0; at < bytes.length; at += 2) {
    const [one, other] = [bytes[at] ?? 0, bytes[at + 1] ?? 0];
    text.unit(littleEndian ? other * 256 + one : one * 256 + other);
  }
  return checked(text.text());
}

const unpaired = /[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/;

/** A text as people type it; a table never holds the characters that only machines write. */
function checked(text: string): string {
  const plain = text.startsWith('\uFEFF') ? text.slice(1) : text;
  const control = plain.indexOf('\0');
  if (control !== -1) throw noText('holds a NUL character: it is no text.', control);
  if (unpaired.test(plain)) throw noText('holds half a character: it is broken.', plain.search(unpaired));
  return plain;
}

function noText(why: string, position?: number): RefusedError {
  return new RefusedError({
    code: 'unreadable-file',
    message: `The table ${why}`,
    ...(position === undefined ? {} : { position }),
  });
}
