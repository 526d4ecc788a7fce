/** The program's window in an installed browser, and how long it stays. */
import { spawn, type ChildProcess } from 'node:child_process';
import { readlinkSync } from 'node:fs';
import { join } from 'node:path';
import { windowArguments } from './browserArguments.ts';
import { isAlive } from '../isAlive.ts';

export interface AppWindow {
  /** Resolves when the started process ends: at once, where a running browser took the window over. */
  handed: Promise<void>;
  /** Resolves when the last window of the program's browser is gone, whichever process holds it. */
  untilClosed: () => Promise<void>;
  close: () => void;
}

const lookEveryMs = 1_000;

export function openAppWindow(browser: string, address: string, profile: string): AppWindow {
  const child = spawn(browser, windowArguments(address, profile), { stdio: 'ignore' });
  const watch = new AbortController();
  const handed = exitOf(child);
  // Whoever asks hears of a failure; one that nobody asked about must not end the program.
  handed.catch(() => undefined);
  return {
    handed,
    untilClosed: () => handed.then(() => profileFree(profile, watch.signal)),
    close: () => {
      watch.abort();
      child.kill('SIGTERM');
    },
  };
}

function exitOf(child: ChildProcess): Promise<void> {
  return new Promise((resolve, reject) => {
    child.on('error', (cause) => reject(new Error(`the browser could not be started: ${cause.message}`)));
    child.on('exit', () => resolve());
  });
}

/**
 * A browser left over from a start that was cut short takes our window over and lets our own process end at once.
 * The window is then that browser's, so its process is the one to wait for.
 */
async function profileFree(profile: string, signal: AbortSignal): Promise<void> {
  for (;;) {
    const holder = holderOf(profile);
    if (signal.aborted || holder === null || !isAlive(holder)) return;
    await new Promise((resolve) => setTimeout(resolve, lookEveryMs));
  }
}

/** Chromium notes who uses a profile as a link to `machine-process`; there is none on Windows. */
export function holderOf(profile: string): number | null {
  try {
    const id = /-(\d+)$/.exec(readlinkSync(join(profile, 'SingletonLock')))?.[1];
    return id === undefined ? null : Number(id);
  } catch {
    return null;
  }
}
