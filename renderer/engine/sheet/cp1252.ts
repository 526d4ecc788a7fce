import { RefusedError } from '../errors.ts';
import { TextBuilder } from './textBuilder.ts';

/** What the bytes 0x80 to 0x9F stand for; 0 where nothing does. */
const upper = [
  0x20ac, 0, 0x201a, 0x0192, 0x201e, 0x2026, 0x2020, 0x2021, 0x02c6, 0x2030, 0x0160, 0x2039, 0x0152, 0, 0x017d, 0, 0,
  0x2018, 0x2019, 0x201c, 0x201d, 0x2022, 0x2013, 0x2014, 0x02dc, 0x2122, 0x0161, 0x203a, 0x0153, 0, 0x017e, 0x0178,
];

/**
 * The text of bytes in CP1252, which older spreadsheets write in western Europe and America.
 *
 * @throws RefusedError unreadable-file where a byte stands for no character
 */
export function cp1252Text(bytes: Uint8Array): string {
  const text = new TextBuilder();
  for (let at = 0; at < bytes.length; at += 1) {
    const byte = bytes[at] ?? 0;
    const unit = byte < 0x80 || byte > 0x9f ? byte : (upper[byte - 0x80] ?? 0);
    if (unit === 0 && byte !== 0) {
      throw new RefusedError({
        code: 'unreadable-file',
        message: 'The table is neither UTF-8 nor CP1252: save it as UTF-8.',
        position: at,
      });
    }
    text.unit(unit);
  }
  return text.text();
}
