import { cpSync, mkdtempSync, realpathSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** What a run of the engine's tests reads; results of builds are not among it. */
const rooms = ['data', 'electron', 'renderer', 'shared-types', 'tests', 'package.json', 'tsconfig.json'];

/** A copy of the tree as it is now, in a new temporary folder: work on the tree goes on while the tests run. */
export function copyOfTree(root: string): string {
  const copy = mkdtempSync(join(realpathSync(tmpdir()), 'bagwright-engine-mutants-'));
  for (const room of rooms) cpSync(join(root, room), join(copy, room), { recursive: true });
  symlinkSync(join(root, 'node_modules'), join(copy, 'node_modules'), 'junction');
  return copy;
}
