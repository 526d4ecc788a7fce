import { spawnSync } from 'node:child_process';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { root } from './tracked.ts';

const require = createRequire(import.meta.url);

/** Path of a program an installed package brings, to be run by Node: no shell, the same on every system. */
export function binOf(packageName: string, program = packageName): string {
  const manifestPath = join(root, 'node_modules', packageName, 'package.json');
  const { bin } = require(manifestPath) as { bin: string | Record<string, string> };
  const relative = typeof bin === 'string' ? bin : bin[program];
  if (relative === undefined) throw new Error(`${packageName} brings no program ${program}`);
  return join(dirname(manifestPath), relative);
}

/** Runs an installed program to its end: its exit code, and all it printed. */
export function runBin(
  packageName: string,
  args: readonly string[],
  cwd = root,
): { code: number | null; text: string } {
  const { status, stdout, stderr, error } = spawnSync(
    process.execPath,
    [binOf(packageName, programOf(packageName)), ...args],
    {
      cwd,
      encoding: 'utf8',
      timeout: 180_000,
      maxBuffer: 64 * 1024 * 1024,
      env: { ...process.env, NO_COLOR: '1', FORCE_COLOR: '0' },
    },
  );
  if (error !== undefined) throw error;
  return { code: status, text: stdout + stderr };
}

/** The program's name where it is not the package's. */
function programOf(packageName: string): string {
  if (packageName === 'typescript') return 'tsc';
  if (packageName === 'dependency-cruiser') return 'depcruise';
  return packageName;
}
