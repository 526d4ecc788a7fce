/** A text file of the user's choice. The dialogue is the shell's; the page learns a name and a text, never a path. */
import { open } from 'node:fs/promises';
import { basename } from 'node:path';
import { dialog } from 'electron';
import type { OpenedText } from '../../shared-types/host.ts';
import type { Handlers } from '../ipc.ts';
import { HostRefusal } from '../site/refusal.ts';

export const openText: Handlers['openText'] = async (window, { extensions, maxBytes }) => {
  const chosen = await dialog.showOpenDialog(window, {
    properties: ['openFile'],
    filters: [{ name: 'Files', extensions: extensions.map((ending) => ending.replace(/^\./, '')) }],
  });
  const path = chosen.filePaths[0];
  return chosen.canceled || path === undefined ? null : await readText(path, maxBytes);
};

async function readText(path: string, maxBytes: number): Promise<OpenedText> {
  const name = basename(path);
  const unreadable = (reason: string): HostRefusal =>
    new HostRefusal({ code: 'unreadable-file', message: `${name} cannot be read: ${reason}`, file: name });
  let bytes: Buffer;
  try {
    // One handle for the look and the reading: the file cannot be another between the two.
    const file = await open(path, 'r');
    try {
      const { size, ...stat } = await file.stat().then((found) => ({ size: found.size, isFile: found.isFile() }));
      if (!stat.isFile) throw unreadable('it is not a file');
      if (size > maxBytes) throw tooLarge(name, size, maxBytes);
      bytes = await file.readFile();
    } finally {
      await file.close();
    }
  } catch (cause) {
    throw cause instanceof HostRefusal ? cause : unreadable((cause as NodeJS.ErrnoException).code ?? 'unknown reason');
  }
  // It may have grown while it was read.
  if (bytes.length > maxBytes) throw tooLarge(name, bytes.length, maxBytes);
  try {
    return { name, text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    throw unreadable('it is not UTF-8 text');
  }
}

function tooLarge(name: string, size: number, maxBytes: number): HostRefusal {
  return new HostRefusal({
    code: 'too-large',
    message: `${name} is ${size} bytes; at most ${maxBytes} bytes are read`,
    file: name,
    value: size,
  });
}
