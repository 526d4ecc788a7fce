/** One packed part, as the directory and the part's own head agree on it. */
export interface ZipEntry {
  name: string;
  isDeflated: boolean;
  crc: number;
  packedBytes: number;
  unpackedBytes: number;
  /** Where its packed bytes begin. */
  dataAt: number;
}
