import { spawn } from 'node:child_process';
import { root } from '../../support/tracked.ts';

export interface Ran {
  exit: number | null;
  stdout: string;
  stderr: string;
}

/** What hangs is ended; a machine busy with other things ends nothing. */
const limitMs = 170_000;

/** Runs the real command in a process of its own, as `npm run -s bagwright -- …` does, with `input` as its standard input. */
export function runHeadless(
  args: readonly string[],
  input: string | Uint8Array = '',
  environment: Record<string, string> = {},
): Promise<Ran> {
  return run(process.execPath, ['--import', 'tsx', 'electron/headless/main.ts', ...args], input, environment);
}

/** The same through npm, as the contract words it. */
export function runThroughNpm(args: readonly string[]): Promise<Ran> {
  return run(process.platform === 'win32' ? 'npm.cmd' : 'npm', ['run', '-s', 'bagwright', '--', ...args], '');
}

function run(
  program: string,
  args: readonly string[],
  input: string | Uint8Array,
  environment: Record<string, string> = {},
): Promise<Ran> {
  return new Promise((resolve, reject) => {
    const child = spawn(program, args, { cwd: root, env: { ...process.env, NO_COLOR: '1', ...environment } });
    const out: Buffer[] = [];
    const err: Buffer[] = [];
    const timer = setTimeout(() => child.kill('SIGKILL'), limitMs);
    child.stdout.on('data', (chunk: Buffer) => out.push(chunk));
    child.stderr.on('data', (chunk: Buffer) => err.push(chunk));
    // The command may end before it has read all it was given.
    child.stdin.on('error', () => undefined);
    child.on('error', reject);
    child.on('close', (exit) => {
      clearTimeout(timer);
      resolve({ exit, stdout: Buffer.concat(out).toString(), stderr: Buffer.concat(err).toString() });
    });
    child.stdin.end(input);
  });
}
