import { Inflate } from 'fflate';
import { crc32 } from './crc32.ts';
import { unreadable } from './refusals.ts';
import type { ZipEntry } from './zipEntry.ts';

/** Packed bytes at a time: what they may grow to at the very most is 16 MB, and then it is stopped. */
const pieceBytes = 16 * 1024;

/**
 * The bytes of one part. They never become more than the directory said: a part that lies about its size is stopped where it exceeds it.
 *
 * @throws RefusedError unreadable-file where they are fewer, more, broken, or not those of the checksum
 */
export function unpackEntry(bytes: Uint8Array, entry: ZipEntry): Uint8Array {
  const packed = bytes.subarray(entry.dataAt, entry.dataAt + entry.packedBytes);
  const unpacked = entry.isDeflated ? inflated(packed, entry) : packed;
  if (unpacked.length !== entry.unpackedBytes)
    throw unreadable(`it says it has ${entry.unpackedBytes} bytes, and has ${unpacked.length}.`, entry.name);
  if (crc32(unpacked) !== entry.crc) throw unreadable('its checksum is wrong: it is damaged.', entry.name);
  if (unpacked[0] === 0x50 && unpacked[1] === 0x4b && unpacked[2] === 3)
    throw unreadable('it is another packed file.', entry.name);
  return unpacked;
}

function inflated(packed: Uint8Array, { name, unpackedBytes }: ZipEntry): Uint8Array {
  const whole = new Uint8Array(unpackedBytes);
  let length = 0;
  const inflate = new Inflate((piece) => {
    if (length + piece.length > unpackedBytes)
      throw unreadable(`it says it has ${unpackedBytes} bytes, and has more.`, name);
    whole.set(piece, length);
    length += piece.length;
  });
  try {
    for (let at = 0; at < packed.length; at += pieceBytes)
      inflate.push(packed.subarray(at, at + pieceBytes), at + pieceBytes >= packed.length);
  } catch (error) {
    // The library says in its own words what is wrong with the packing.
    throw error instanceof Error && error.name === 'RefusedError' ? error : unreadable('it is damaged.', name);
  }
  return whole.subarray(0, length);
}
