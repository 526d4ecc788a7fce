import { utf8Text } from '../utf8.ts';
import { checkSizes } from './checkSizes.ts';
import { entriesMost, fileMostBytes } from './limits.ts';
import { tooLarge, unreadable } from './refusals.ts';
import type { ZipEntry } from './zipEntry.ts';

const signs = { end: 0x06054b50, central: 0x02014b50, local: 0x04034b50 };
const [endLength, centralLength, localLength] = [22, 46, 30];

/**
 * The directory of a packed file, and nothing but it: every guard against files that burst is answered before a byte is unpacked.
 *
 * @param bytes - the whole file
 * @returns its entries by name
 * @throws RefusedError unreadable-file: no packed file, broken off, encrypted, names that lead out of it or stand twice, parts that
 *   overlap, heads that contradict the directory, a packed file within; too-large: see limits.ts
 */
export function zipDirectory(bytes: Uint8Array): ReadonlyMap<string, ZipEntry> {
  refuseOther(bytes);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const { count, at: start, end } = endRecord(view);
  const entries = new Map<string, ZipEntry>();
  const seen = new Set<string>();
  let at = start;
  for (let index = 0; index < count; index += 1) {
    const { entry, next } = centralEntry(view, bytes, { at, end, start });
    const folded = entry.name.toLowerCase();
    if (seen.has(folded)) throw unreadable('two of its parts have the same name', entry.name);
    seen.add(folded);
    entries.set(entry.name, entry);
    at = next;
  }
  if (at !== end) throw unreadable('its directory is longer than the parts it names.');
  checkSizes([...entries.values()]);
  return entries;
}

function refuseOther(bytes: Uint8Array): void {
  if (bytes.length > fileMostBytes) throw tooLarge(`it has ${bytes.length} bytes; at most ${fileMostBytes} are taken.`);
  const [a = 0, b = 0, c = 0, d = 0] = bytes;
  if (a === 0xd0 && b === 0xcf && c === 0x11 && d === 0xe0)
    throw unreadable('it is of the old kind (.xls), or it has a password: save it as .xlsx without one.');
  if (a === 0x50 && b === 0x4b && (c === 3 || c === 5)) return;
  const head = String.fromCharCode(...bytes.subarray(0, 40)).replace(/^(?:ï»¿)?\s+/, '');
  if (head.replace('ï»¿', '').startsWith('<'))
    throw unreadable('it is a web page or another text with the ending of a workbook: save it as .xlsx.');
  throw unreadable('it is no .xlsx workbook.');
}

/** The record that ends the file: how many parts there are, and where the directory of them lies. */
function endRecord(view: DataView): { count: number; at: number; end: number } {
  const length = view.byteLength;
  for (let at = length - endLength; at >= Math.max(0, length - endLength - 0xffff); at -= 1) {
    if (view.getUint32(at, true) !== signs.end || at + endLength + view.getUint16(at + 20, true) !== length) continue;
    const count = view.getUint16(at + 10, true);
    const size = view.getUint32(at + 12, true);
    const start = view.getUint32(at + 16, true);
    if (count === 0xffff || size === 0xffffffff || start === 0xffffffff)
      throw tooLarge('it is packed in the form for files above 4 GB.');
    if (view.getUint16(at + 4, true) !== 0 || view.getUint16(at + 8, true) !== count)
      throw unreadable('it is one of several pieces of a packed file.');
    if (count > entriesMost) throw tooLarge(`it has ${count} parts; at most ${entriesMost} are taken.`);
    if (start + size > at) throw unreadable('its directory lies outside of the file: it is broken.');
    return { count, at: start, end: start + size };
  }
  throw unreadable('it is broken off: the end of it is missing.');
}

function centralEntry(
  view: DataView,
  bytes: Uint8Array,
  { at, end, start }: { at: number; end: number; start: number },
): { entry: ZipEntry; next: number } {
  if (at + centralLength > end || view.getUint32(at, true) !== signs.central)
    throw unreadable('its directory is broken off.');
  const flags = view.getUint16(at + 8, true);
  const method = view.getUint16(at + 10, true);
  const nameLength = view.getUint16(at + 28, true);
  const next = at + centralLength + nameLength + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  if (next > end) throw unreadable('its directory is broken off.');
  const nameBytes = bytes.subarray(at + centralLength, at + centralLength + nameLength);
  const name = checkedName(nameBytes);
  if ((flags & 0x2041) !== 0) throw unreadable('it is encrypted: save it without a password.', name);
  if (method !== 0 && method !== 8) throw unreadable(`it is packed in a way (${method}) that is not known here.`, name);
  const sizes = {
    crc: view.getUint32(at + 16, true),
    packedBytes: view.getUint32(at + 20, true),
    unpackedBytes: view.getUint32(at + 24, true),
  };
  const dataAt = dataStart(view, bytes, {
    ...sizes,
    ...{ at: view.getUint32(at + 42, true), flags, method, nameBytes, name, end: start },
  });
  return { entry: { name, isDeflated: method === 8, ...sizes, dataAt }, next };
}

/** A part's own head must say what the directory says: who reads the one must not be told otherwise by the other. */
function dataStart(
  view: DataView,
  bytes: Uint8Array,
  x: Pick<ZipEntry, 'name' | 'crc' | 'packedBytes' | 'unpackedBytes'> & {
    at: number;
    flags: number;
    method: number;
    nameBytes: Uint8Array;
    end: number;
  },
): number {
  const { at, name, nameBytes } = x;
  if (at + localLength > x.end || view.getUint32(at, true) !== signs.local)
    throw unreadable('its directory points to no part of it.', name);
  const length = view.getUint16(at + 26, true);
  const sameName =
    length === nameBytes.length && nameBytes.every((byte, index) => bytes[at + localLength + index] === byte);
  const flags = view.getUint16(at + 6, true);
  // Sizes may stand behind the part where whoever packed it could not know them before.
  const hasSizes = (flags & 8) === 0;
  const sameSizes =
    !hasSizes ||
    (view.getUint32(at + 14, true) === x.crc &&
      view.getUint32(at + 18, true) === x.packedBytes &&
      view.getUint32(at + 22, true) === x.unpackedBytes);
  if (!sameName || !sameSizes || view.getUint16(at + 8, true) !== x.method || (flags & 0x2041) !== 0)
    throw unreadable('what the part says of itself and what the directory says of it differ.', name);
  const dataAt = at + localLength + length + view.getUint16(at + 28, true);
  if (dataAt + x.packedBytes > x.end) throw unreadable('the part is broken off.', name);
  return dataAt;
}

const packedFile = /\.(?:zip|xls[xmb]?|xlt[xm]|xlam|doc[xm]|ppt[xm]|od[stp]|jar|gz|tgz|bz2|xz|7z|rar|tar|cab|zst)$/i;

function checkedName(bytes: Uint8Array): string {
  const name = utf8Text(bytes) ?? String.fromCharCode(...bytes);
  const leadsOut =
    name === '' ||
    // eslint-disable-next-line no-control-regex
    /[\\:\u0000-\u001f]/.test(name) ||
    name.startsWith('/') ||
    name.split('/').some((part) => part === '..' || part === '.');
  if (leadsOut) throw unreadable('the name of a part leads out of the file.', name);
  if (packedFile.test(name)) throw unreadable('it holds another packed file.', name);
  return name;
}
