/** Whether a build is older than what it was made from. */
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

const builtFrom = ['renderer', 'electron', 'shared-types', 'data', 'package.json', 'package-lock.json'];

/** Folders count too: their time moves when a file in them is deleted. */
function newestMs(root: string, names: readonly string[] = builtFrom): number {
  let newest = 0;
  for (const name of names) {
    const path = join(root, name);
    const found = statSync(path, { throwIfNoEntry: false });
    if (found === undefined) continue;
    newest = Math.max(newest, found.mtimeMs);
    if (!found.isDirectory()) continue;
    for (const entry of readdirSync(path, { recursive: true })) {
      // A file that is gone between the listing and the look is a change by itself; its folder's time shows it.
      newest = Math.max(newest, statSync(join(path, String(entry)), { throwIfNoEntry: false })?.mtimeMs ?? 0);
    }
  }
  return newest;
}

export function isStale(root: string, outputs: readonly string[], stamp: string): boolean {
  if (outputs.some((output) => statSync(join(root, output), { throwIfNoEntry: false }) === undefined)) return true;
  return newestMs(root) > statSync(join(root, stamp)).mtimeMs;
}
