/** Saves where the user says. The page proposes a name and has no say about the place. */
import { extname } from 'node:path';
import { dialog } from 'electron';
import { safeFileName } from '../../shared-types/fileName.ts';
import { writeWhole } from '../files/writeWhole.ts';
import type { Handlers } from '../ipc.ts';
import { HostRefusal } from '../site/refusal.ts';

const kinds = {
  'application/json': { name: 'JSON', ending: 'json' },
  'text/csv': { name: 'CSV', ending: 'csv' },
  'application/pdf': { name: 'PDF', ending: 'pdf' },
  'text/plain': { name: 'Text', ending: 'txt' },
  'image/svg+xml': { name: 'Drawing', ending: 'svg' },
  'image/png': { name: 'Picture', ending: 'png' },
  'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet': { name: 'Workbook', ending: 'xlsx' },
} as const;

export function saveFile(usersMask: number): Handlers['saveFile'] {
  return async (window, { name, mediaType, bytes }) => {
    const proposed = safeFileName(name);
    const kind = kinds[mediaType];
    const ending = extname(proposed).slice(1).toLowerCase() || kind.ending;
    const chosen = await dialog.showSaveDialog(window, {
      defaultPath: proposed,
      filters: [{ name: kind.name, extensions: [ending] }],
    });
    if (chosen.canceled || chosen.filePath === '') return false;
    try {
      await writeWhole(chosen.filePath, bytes, 0o666 & ~usersMask);
    } catch (cause) {
      const reason = (cause as NodeJS.ErrnoException).code ?? 'unknown reason';
      throw new HostRefusal({ code: 'internal', message: `${proposed} could not be saved: ${reason}`, file: proposed });
    }
    return true;
  };
}
