import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { RefusedError } from '../../renderer/engine/errors.ts';
import type { Line } from './command.ts';

/** The largest file read whole, and the longest line of a batch. Real plans hold some hundred kilobytes. */
export const bytesMax = 32 * 1024 * 1024;

const standardInput = '-';

/** The text of a file or of standard input, whole. */
export async function readText(path: string): Promise<string> {
  return decode(await readBytes(path), path);
}

/** The bytes of a file or of standard input, whole. Its size is asked first, so that a huge one costs nothing. */
export async function readBytes(path: string): Promise<Uint8Array> {
  const chunks: Buffer[] = [];
  let bytes = 0;
  for await (const chunk of chunksOf(path, bytesMax)) {
    bytes += chunk.length;
    if (bytes > bytesMax) throw tooLarge(path, bytes);
    chunks.push(chunk);
  }
  return Buffer.concat(chunks);
}

/** Lines as bytes: one that is no UTF-8, or is longer than bytesMax, spoils only itself. No more than bytesMax is held at a time. */
export async function* readLines(path: string): AsyncGenerator<Line> {
  let held: Buffer[] = [];
  let bytes = 0;
  const hold = (part: Buffer): void => {
    bytes += part.length;
    if (bytes > bytesMax) held = [];
    else held.push(part);
  };
  const ended = (): Line => {
    const line = bytes > bytesMax ? { bytesPassedOver: bytes } : Buffer.concat(held);
    held = [];
    bytes = 0;
    return line;
  };
  for await (const chunk of chunksOf(path)) {
    let start = 0;
    for (let end = chunk.indexOf(lineFeed); end !== -1; end = chunk.indexOf(lineFeed, start)) {
      hold(chunk.subarray(start, end));
      yield ended();
      start = end + 1;
    }
    if (start < chunk.length) hold(chunk.subarray(start));
  }
  if (bytes > 0) yield ended();
}

const lineFeed = 0x0a;

/** @throws RefusedError unreadable-file where the bytes are no UTF-8 */
export function decode(bytes: Uint8Array, path: string): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    const isUtf16 = (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff);
    throw new RefusedError({
      code: 'unreadable-file',
      message: `${nameOf(path)} is no UTF-8 text${isUtf16 ? ' but UTF-16: save it as UTF-8' : ''}.`,
      file: path,
    });
  }
}

async function* chunksOf(path: string, fileBytesMax = Number.POSITIVE_INFINITY): AsyncGenerator<Buffer> {
  try {
    if (path !== standardInput) {
      const found = await stat(path);
      if (found.isDirectory()) throw unreadable(path, 'is a folder');
      if (found.size > fileBytesMax) throw tooLarge(path, found.size);
    }
    const stream: AsyncIterable<unknown> = path === standardInput ? process.stdin : createReadStream(path);
    for await (const chunk of stream) yield Buffer.isBuffer(chunk) ? chunk : Buffer.from(String(chunk));
  } catch (error) {
    throw error instanceof RefusedError ? error : unreadable(path, reasons[codeOf(error)] ?? 'cannot be read');
  }
}

const reasons: Record<string, string> = {
  ENOENT: 'does not exist',
  ENOTDIR: 'does not exist',
  EACCES: 'may not be read',
  EPERM: 'may not be read',
  EISDIR: 'is a folder',
  ENAMETOOLONG: 'has too long a name',
  ERR_INVALID_ARG_VALUE: 'has a name that no file can have',
};

function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error ? String(error.code) : '';
}

function unreadable(path: string, why: string): RefusedError {
  return new RefusedError({ code: 'unreadable-file', message: `${nameOf(path)} ${why}.`, file: path });
}

function tooLarge(path: string, bytes: number): RefusedError {
  return new RefusedError({
    code: 'too-large',
    message: `${nameOf(path)} holds more than ${bytesMax} bytes, the most that is read.`,
    file: path,
    value: bytes,
  });
}

function nameOf(path: string): string {
  return path === standardInput ? 'Standard input' : `File "${path}"`;
}
