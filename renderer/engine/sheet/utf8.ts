import { textOfUnits, unitsMost } from './textBuilder.ts';

/**
 * The text of bytes in UTF-8, read strictly: no byte is guessed.
 *
 * @returns null where the bytes are no UTF-8: broken off, over-long, half of a surrogate pair
 */
export function utf8Text(bytes: Uint8Array): string | null {
  const { length } = bytes;
  const units = new Uint16Array(unitsMost);
  const parts: string[] = [];
  let count = 0;
  for (let at = 0; at < length;) {
    // Room for a run of single bytes and for a pair.
    if (count >= unitsMost - 2) {
      parts.push(textOfUnits(units.subarray(0, count)));
      count = 0;
    }
    const end = Math.min(length, at + unitsMost - 2 - count);
    let lead = bytes[at] ?? 0;
    while (lead < 0x80 && at < end) {
      units[count] = lead;
      count += 1;
      at += 1;
      lead = bytes[at] ?? 0x80;
    }
    if (at >= length || (at === end && lead < 0x80)) continue;
    if (lead < 0xc2 || lead > 0xf4) return null;
    const following = lead >= 0xf0 ? 3 : lead >= 0xe0 ? 2 : 1;
    const point = pointAt(bytes, at, following);
    if (point < (leastOf[following] ?? 0) || point > 0x10ffff || (point >= 0xd800 && point <= 0xdfff)) return null;
    if (point < 0x10000) {
      units[count] = point;
      count += 1;
    } else {
      units[count] = 0xd800 + ((point - 0x10000) >> 10);
      units[count + 1] = 0xdc00 + ((point - 0x10000) & 0x3ff);
      count += 2;
    }
    at += following + 1;
  }
  parts.push(textOfUnits(units.subarray(0, count)));
  return parts.join('');
}

/** The least code point that so many following bytes may spell. */
const leastOf = [0, 0x80, 0x800, 0x10000];

/** The code point that a byte and those that follow it spell; -1 where one of them follows none. */
function pointAt(bytes: Uint8Array, at: number, following: number): number {
  let point = (bytes[at] ?? 0) & (0x3f >> following);
  for (let step = 1; step <= following; step += 1) {
    const next = bytes[at + step] ?? 0;
    if ((next & 0xc0) !== 0x80) return -1;
    point = (point << 6) | (next & 0x3f);
  }
  return point;
}
