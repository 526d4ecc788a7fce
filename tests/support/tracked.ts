import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The root of the repository, without a slash at its end. */
export const root = fileURLToPath(new URL('../..', import.meta.url)).replace(/[/\\]$/, '');

/** The files git knows and that are there, by their path from the root. */
export function trackedFiles(): string[] {
  const listed = execFileSync('git', ['-c', 'safe.directory=*', 'ls-files', '-z'], {
    cwd: root,
    encoding: 'utf8',
    maxBuffer: 64 * 1024 * 1024,
  });
  return listed.split('\0').filter((path) => path !== '' && existsSync(join(root, path)));
}
