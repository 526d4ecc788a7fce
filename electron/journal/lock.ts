/** One process per journal: the desktop shell and the browser window's server never write the same files. */
import { randomBytes } from 'node:crypto';
import { readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { setTimeout as pause } from 'node:timers/promises';
import { join } from 'node:path';
import { z } from '../../shared-types/schema.ts';
import { HostRefusal } from '../site/refusal.ts';
import { systemProcesses, type Holder, type Processes } from './processes.ts';

const lockFile = 'lock';
const holderSchema = z.object({ pid: z.int().min(1), started: z.string() });
/** A lock is empty for the moment between its making and its writing. */
const writingMs = 100;

export interface Lock {
  /** At once, since it is also called when the process ends. */
  release(): void;
}

export async function takeLock(folder: string, processes: Processes = systemProcesses): Promise<Lock> {
  const path = join(folder, lockFile);
  const mine = JSON.stringify({ ...processes.self(), mark: randomBytes(8).toString('hex') });
  for (let attempt = 1; attempt <= 10; attempt += 1) {
    if (make(path, mine)) return { release: () => giveBack(path, mine) };
    const found = readText(path);
    const holder = holderIn(found);
    if (holder !== null && processes.isRunning(holder)) throw heldBy(holder);
    if (holder === null && attempt === 1) await pause(writingMs);
    else clear(path, found);
  }
  throw heldBy(null);
}

/** A file is made by exactly one of those who try. */
function make(path: string, text: string): boolean {
  try {
    writeFileSync(path, text, { flag: 'wx', mode: 0o600 });
    return true;
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code === 'EEXIST') return false;
    throw cause;
  }
}

/** Two may find the same dead holder. The one who comes late would take away the other's new lock, and puts it back. */
function clear(path: string, dead: string | null): void {
  const aside = `${path}.${randomBytes(8).toString('hex')}`;
  try {
    renameSync(path, aside);
  } catch (cause) {
    if ((cause as NodeJS.ErrnoException).code === 'ENOENT') return;
    throw cause;
  }
  const taken = readText(aside);
  if (taken !== null && taken !== dead) make(path, taken);
  rmSync(aside, { force: true });
}

function giveBack(path: string, mine: string): void {
  if (readText(path) === mine) rmSync(path, { force: true });
}

function readText(path: string): string | null {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return null;
  }
}

function holderIn(text: string | null): Holder | null {
  try {
    return holderSchema.safeParse(JSON.parse(text ?? '')).data ?? null;
  } catch {
    return null;
  }
}

function heldBy(holder: Holder | null): HostRefusal {
  const who = holder === null ? '' : ` (process ${holder.pid})`;
  return new HostRefusal({
    code: 'not-available',
    message: `Another Bagwright${who} has these data open. Close it, then try again.`,
  });
}
