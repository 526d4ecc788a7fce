/** A chosen file's text, its size looked at before a byte of it is read. */
import type { OpenedText } from '../../shared-types/host.ts';
import { RefusedError } from '../engine/errors.ts';

export interface ChosenFile {
  name: string;
  size: number;
  arrayBuffer(): Promise<ArrayBuffer>;
}

export async function readText(file: ChosenFile, maxBytes: number): Promise<OpenedText> {
  if (file.size > maxBytes) {
    throw new RefusedError({
      code: 'too-large',
      message: `${file.name} is ${file.size} bytes; at most ${maxBytes} bytes are read`,
      file: file.name,
      value: file.size,
    });
  }
  let bytes: ArrayBuffer;
  try {
    bytes = await file.arrayBuffer();
  } catch (cause) {
    throw unreadable(file.name, String(cause));
  }
  try {
    return { name: file.name, text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    throw unreadable(file.name, 'it is not UTF-8 text');
  }
}

function unreadable(name: string, reason: string): RefusedError {
  return new RefusedError({ code: 'unreadable-file', message: `${name} cannot be read: ${reason}`, file: name });
}
