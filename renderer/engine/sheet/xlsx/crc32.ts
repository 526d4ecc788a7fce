/** Remainders of every byte, for the polynomial that packed files use. */
const remainders = Uint32Array.from({ length: 256 }, (_, byte) => {
  let remainder = byte;
  for (let bit = 0; bit < 8; bit += 1)
    remainder = (remainder & 1) === 1 ? (remainder >>> 1) ^ 0xedb88320 : remainder >>> 1;
  return remainder >>> 0;
});

/** The checksum that a packed file states for each of its entries (CRC-32, as 32 bits without sign). */
export function crc32(bytes: Uint8Array): number {
  let checksum = 0xffffffff;
  for (const byte of bytes) checksum = (remainders[(checksum ^ byte) & 0xff] ?? 0) ^ (checksum >>> 8);
  return (checksum ^ 0xffffffff) >>> 0;
}
