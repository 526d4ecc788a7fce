/** Which process is which: a number alone may have been given to another one since. */
import { readFileSync } from 'node:fs';
import { isAlive } from '../isAlive.ts';

export interface Holder {
  pid: number;
  /** When it started, as far as the system tells; else empty. */
  started: string;
}

export interface Processes {
  self: () => Holder;
  isRunning: (holder: Holder) => boolean;
}

export const systemProcesses: Processes = {
  self: () => ({ pid: process.pid, started: startOf(process.pid) ?? '' }),
  isRunning({ pid, started }) {
    if (!isAlive(pid)) return false;
    if (process.platform !== 'linux' || started === '') return true;
    return startOf(pid) === started;
  },
};

/** Linux tells the boot and the moment in it; null where the process is gone or waits only to be buried. */
function startOf(pid: number): string | null {
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, 'ascii');
    // The name in brackets may hold anything, brackets too.
    const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
    if (fields[0] === 'Z' || fields[0] === 'X') return null;
    return `${readFileSync('/proc/sys/kernel/random/boot_id', 'ascii').trim()} ${fields[19]}`;
  } catch {
    return null;
  }
}
