import { TextBuilder } from './textBuilder.ts';

/**
 * The text of bytes in UTF-8, read strictly: no byte is guessed.
 *
 * @returns null where the bytes are no UTF-8: broken off, over-long, half of a surrogate pair
 */
export function utf8Text(bytes: Uint8Array): string | null {
  const text = new TextBuilder();
  for (let at = 0; at < bytes.length;) {
    const lead = bytes[at] ?? 0;
    if (lead < 0x80) {
      let end = at + 1;
      while (end < bytes.length && (bytes[end] ?? 0) < 0x80) end += 1;
      // A long run is handed over whole; a short one is not worth a string of its own.
      if (end - at > runLeast) text.ascii(bytes, at, end);
      else for (let each = at; each < end; each += 1) text.unit(bytes[each] ?? 0);
      at = end;
      continue;
    }
    const following = lead >= 0xf0 && lead < 0xf8 ? 3 : lead >= 0xe0 ? 2 : 1;
    if (lead < 0xc2 || lead > 0xf4) return null;
    let point = lead & (0x3f >> following);
    for (let step = 1; step <= following; step += 1) {
      const next = bytes[at + step] ?? 0;
      if ((next & 0xc0) !== 0x80) return null;
      point = (point << 6) | (next & 0x3f);
    }
    if (point < (leastOf[following] ?? 0) || point > 0x10ffff || (point >= 0xd800 && point <= 0xdfff)) return null;
    text.point(point);
    at += following + 1;
  }
  return text.text();
}

/** Bytes of a run that is handed over whole. */
const runLeast = 512;

/** The least code point that so many following bytes may spell. */
const leastOf = [0, 0x80, 0x800, 0x10000];
