import { RefusedError } from '../errors.ts';
import { withoutByteOrderMark } from './byteOrderMark.ts';
import { scanJson } from './scanJson.ts';

export { refusalFromZod } from './refusalFromZod.ts';
export { fieldText } from './fieldText.ts';
export { rowFinder, rowOf } from './rowOf.ts';

/**
 * The value of an untrusted JSON text, read strictly.
 *
 * @param text - the whole file
 * @param options.file - its name, for refusals
 * @param options.maxBytes - most bytes of UTF-8 taken
 * @throws RefusedError too-large, not-json (with position and row), too-deep, duplicate-key, forbidden-key, not-finite
 */
export function readJson(text: string, options: { file?: string; maxBytes: number }): unknown {
  const origin = options.file === undefined ? {} : { file: options.file };
  if (longerThan(text, options.maxBytes)) {
    throw new RefusedError({
      code: 'too-large',
      message: `The text is larger than ${options.maxBytes} bytes, the most that is read.`,
      ...origin,
    });
  }
  const json = withoutByteOrderMark(text);
  try {
    scanJson(json);
  } catch (error) {
    throw error instanceof RefusedError ? error.within(origin) : error;
  }
  return JSON.parse(json) as unknown;
}

/** Whether a text takes more than so many bytes in UTF-8, without encoding it. */
function longerThan(text: string, maxBytes: number): boolean {
  if (text.length > maxBytes) return true;
  let bytes = 0;
  for (let index = 0; index < text.length; index += 1) {
    const code = text.charCodeAt(index);
    // Each half of a pair counts 2: four bytes for the whole character.
    bytes += code < 0x80 ? 1 : code < 0x800 || (code >= 0xd800 && code <= 0xdfff) ? 2 : 3;
  }
  return bytes > maxBytes;
}
