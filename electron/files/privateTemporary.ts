/** A folder for files that another program must be able to open, closed to other users and gone at the end. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { safeFileName } from '../../shared-types/fileName.ts';

export interface PrivateTemporary {
  write: (name: string, bytes: Uint8Array) => string;
  remove: () => void;
}

export function privateTemporary(base: string = tmpdir()): PrivateTemporary {
  const folders: string[] = [];
  return {
    write(name, bytes) {
      // One folder for each file, so that two of one name do not meet. `mkdtemp` makes it 0700.
      const folder = mkdtempSync(join(base, 'bagwright-'));
      folders.push(folder);
      const path = join(folder, safeFileName(name));
      writeFileSync(path, bytes, { flag: 'wx', mode: 0o600 });
      return path;
    },
    remove() {
      for (const folder of folders.splice(0)) {
        try {
          rmSync(folder, { recursive: true, force: true });
        } catch {
          // Windows keeps a file that is still open elsewhere; the system clears its own temporary folder.
        }
      }
    },
  };
}
