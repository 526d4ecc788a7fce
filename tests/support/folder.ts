import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';

/** The files of a tree: path from its root, content. */
export type Files = Readonly<Record<string, string>>;

/** Writes `files` into a new temporary folder, hands it to `task`, and takes it away again. */
export async function inFolder<T>(files: Files, task: (folder: string) => T | Promise<T>): Promise<T> {
  const folder = mkdtempSync(join(tmpdir(), 'bagwright-tree-'));
  try {
    for (const [path, content] of Object.entries(files)) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      writeFileSync(join(folder, path), content);
    }
    return await task(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
