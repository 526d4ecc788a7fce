/** Folders of a campaign's own, gone when it closes. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export interface Scratch {
  /** A new, empty one. */
  folder(): string;
  clear(): void;
}

export function scratch(): Scratch {
  const all = mkdtempSync(join(tmpdir(), 'bagwright-campaign-'));
  let count = 0;
  return {
    folder: () => mkdtempSync(join(all, `${String((count += 1))}-`)),
    clear: () => rmSync(all, { recursive: true, force: true, maxRetries: 5 }),
  };
}
