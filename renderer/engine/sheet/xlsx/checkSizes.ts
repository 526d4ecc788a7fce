import { entryMostBytes, ratioFromBytes, ratioMost, unpackedMostBytes } from './limits.ts';
import { tooLarge, unreadable } from './refusals.ts';
import type { ZipEntry } from './zipEntry.ts';

/**
 * Refuses parts that would burst: each by its own size and by how much it grows, all together, and those that share bytes.
 *
 * @throws RefusedError too-large; unreadable-file where two parts lie on the same bytes, or a part that is not packed grows
 */
export function checkSizes(entries: readonly ZipEntry[]): void {
  let total = 0;
  for (const { name, isDeflated, packedBytes, unpackedBytes } of entries) {
    if (unpackedBytes > entryMostBytes)
      throw tooLarge(`the part has ${unpackedBytes} bytes unpacked; at most ${entryMostBytes} are taken.`, name);
    if (!isDeflated && packedBytes !== unpackedBytes)
      throw unreadable('the part is not packed, and yet of two sizes.', name);
    if (unpackedBytes > ratioFromBytes && unpackedBytes > packedBytes * ratioMost) {
      const times = Math.floor(unpackedBytes / Math.max(1, packedBytes));
      throw tooLarge(`the part grows ${times}-fold when it is unpacked; at most ${ratioMost}-fold is taken.`, name);
    }
    total += unpackedBytes;
  }
  if (total > unpackedMostBytes)
    throw tooLarge(`all of it has ${total} bytes unpacked; at most ${unpackedMostBytes} are taken.`);
  let end = 0;
  for (const { name, dataAt, packedBytes } of entries.toSorted((a, b) => a.dataAt - b.dataAt)) {
    if (dataAt < end) throw unreadable('two of its parts lie on the same bytes.', name);
    end = dataAt + packedBytes;
  }
}
