/** Electron's program file: found, or fetched within a deadline. Never by importing `electron`, which fetches unasked. */
import { spawn } from 'node:child_process';
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { thisMachine, type Machine } from './findBrowser.ts';

const deadlineVariable = 'BAGWRIGHT_ELECTRON_DEADLINE_S';
const defaultDeadlineS = 120;

/** The folder of the installed package, or null. */
function electronPackage(): string | null {
  try {
    return dirname(createRequire(import.meta.url).resolve('electron/package.json'));
  } catch {
    return null;
  }
}

/** Follows the package's own rule: `path.txt` names the file once it is whole, an override names another folder. */
export function electronBinary(
  folder: string | null = electronPackage(),
  machine: Machine = thisMachine,
  readText: (file: string) => string = (file) => readFileSync(file, 'utf8'),
): string | null {
  const name =
    { darwin: 'Electron.app/Contents/MacOS/Electron', win32: 'electron.exe' }[machine.platform as string] ?? 'electron';
  const override = machine.environment['ELECTRON_OVERRIDE_DIST_PATH'];
  if (override !== undefined && override !== '') {
    const file = join(override, name);
    return machine.exists(file) ? file : null;
  }
  if (folder === null) return null;
  try {
    if (readText(join(folder, 'path.txt')).trim() !== name) return null;
  } catch {
    return null;
  }
  const file = join(folder, 'dist', name);
  return machine.exists(file) ? file : null;
}

export function deadlineS(environment: Machine['environment'] = process.env): number {
  const given = environment[deadlineVariable];
  const seconds = given === undefined || given.trim() === '' ? defaultDeadlineS : Number(given);
  return Number.isFinite(seconds) && seconds >= 0 ? seconds : defaultDeadlineS;
}

/** Lies in the package's folder, and so goes with the next installation. */
const triedName = 'could-not-be-fetched.txt';

/** Once is enough for each installation: a machine without a network is not to wait for it at each start. A time of one's own asks anew. */
export function wasTried(
  folder: string | null = electronPackage(),
  environment: Machine['environment'] = process.env,
): boolean {
  if (folder === null || (environment[deadlineVariable] ?? '') !== '') return false;
  return existsSync(join(folder, triedName));
}

/** Runs the package's own fetcher, which checks what it fetched. True when the program file is in place afterwards. */
export async function fetchElectron(seconds: number, folder: string | null = electronPackage()): Promise<boolean> {
  if (folder === null || seconds === 0) return false;
  const isFetched = await fetched(seconds, folder);
  try {
    if (isFetched) rmSync(join(folder, triedName), { force: true });
    else writeFileSync(join(folder, triedName), 'Bagwright could not fetch it. Without this file it tries again.\n');
  } catch {
    // Then it is tried again at the next start.
  }
  return isFetched;
}

function fetched(seconds: number, folder: string): Promise<boolean> {
  return new Promise((resolve) => {
    const fetcher = spawn(process.execPath, [join(folder, 'install.js')], {
      stdio: 'ignore',
      timeout: seconds * 1_000,
      killSignal: 'SIGKILL',
    });
    fetcher.on('error', () => resolve(false));
    fetcher.on('exit', (code) => resolve(code === 0 && electronBinary(folder) !== null));
  });
}
