/**
 * What the program costs while nobody touches it, and how large it is: `npx tsx tests/bench/idle.ts [SECONDS]`. The program itself, as
 * `npm start` begins it, in its browser window (without a display) with a worked example open; nobody is connected to it meanwhile.
 * Processor time of all its processes, which other work of the machine does not count towards. On Linux alone, where the system
 * lists the time of each process. It needs the program's own port, and a second one beside it.
 */
import { spawn } from 'node:child_process';
import { chmodSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { chromium } from 'playwright-core';
import { buildIfNeeded, root } from '../../electron/launch/build.ts';
import { identity } from '../../shared-types/ipc.ts';
import { openDemo } from '../e2e/driveWindow.ts';
import { chromiumHere } from '../e2e/support/openBuilt.ts';

/** Of a second; the kernel's unit of a process's times on every usual machine (man 5 proc, USER_HZ). */
const tick = 100;

interface Process {
  parent: number;
  ticks: number;
}

function processes(): Map<number, Process> {
  const found = new Map<number, Process>();
  for (const name of readdirSync('/proc')) {
    if (!/^\d+$/.test(name)) continue;
    try {
      // Behind the name in brackets: state, parent, …; the 12th and 13th are user and system time.
      const fields = readFileSync(`/proc/${name}/stat`, 'utf8')
        .replace(/^.*\) /s, '')
        .split(' ')
        .map(Number);
      found.set(Number(name), { parent: fields[1] ?? 0, ticks: (fields[11] ?? 0) + (fields[12] ?? 0) });
    } catch {
      // It ended between the listing and the look.
    }
  }
  return found;
}

interface Spent {
  server: number;
  browser: number;
}

/** Processor seconds of the program's process, and of all that it began. */
function spentS(program: number): Spent {
  const all = processes();
  const isOurs = (id: number): boolean => id === program || (id > 1 && isOurs(all.get(id)?.parent ?? 0));
  const own = all.get(program)?.ticks ?? 0;
  const ours = [...all].reduce((sum, [id, { ticks }]) => sum + (isOurs(id) ? ticks : 0), 0);
  return { server: own / tick, browser: (ours - own) / tick };
}

function sizeMB(folder: string): number {
  const names = readdirSync(folder, { recursive: true, encoding: 'utf8' });
  const bytes = names.reduce((sum, name) => {
    const found = statSync(join(folder, name), { throwIfNoEntry: false });
    return sum + (found?.isFile() === true ? found.size : 0);
  }, 0);
  return Math.round(bytes / 1e5) / 10;
}

const seconds = Number(process.argv[2] ?? 60);
const debuggingPort = identity.browserPort + 1;

async function began(): Promise<Awaited<ReturnType<typeof chromium.connectOverCDP>>> {
  for (let tries = 0; ; tries += 1) {
    try {
      return await chromium.connectOverCDP(`http://127.0.0.1:${debuggingPort}`);
    } catch (cause) {
      if (tries > 120) throw cause;
      await pause(500);
    }
  }
}

/** Opens the worked example and lets go of the window again. */
async function openTask(): Promise<void> {
  const browser = await began();
  const page = browser.contexts()[0]?.pages()[0];
  if (page === undefined) throw new Error('The program has no window');
  await page.getByRole('heading', { name: 'What do you have in front of you?' }).waitFor();
  await openDemo(page, 'Skua Rock light');
  await browser.close();
}

await buildIfNeeded();
const scratch = mkdtempSync(join(tmpdir(), 'bagwright-idle-'));
const shown = join(scratch, 'browser');
writeFileSync(
  shown,
  `#!/bin/sh\nexec '${chromiumHere()}' --headless=new --disable-gpu --remote-debugging-port=${debuggingPort} "$@"\n`,
);
chmodSync(shown, 0o755);
const environment = { DISPLAY: ':0', ...process.env, BAGWRIGHT_BROWSER: shown, BAGWRIGHT_DATA: join(scratch, 'data') };
const program = spawn(process.execPath, [join(root, 'electron/launch/begin.mjs'), '--browser'], {
  env: environment,
  detached: true,
  stdio: 'ignore',
});
const ended = new Promise<void>((resolve) => program.on('close', () => resolve()));
const group = program.pid ?? 0;
let [before, after]: [Spent, Spent] = [
  { server: 0, browser: 0 },
  { server: 0, browser: 0 },
];
try {
  await openTask();
  // What the work before has left to be cleared away takes half a minute.
  await pause(60_000);
  before = spentS(group);
  await pause(seconds * 1_000);
  after = spentS(group);
} finally {
  process.kill(-group, 'SIGTERM');
  await ended;
  rmSync(scratch, { recursive: true, force: true, maxRetries: 5 });
}
const shareOf = (part: keyof Spent): number => ((after[part] - before[part]) / seconds) * 100;
const share = shareOf('server') + shareOf('browser');
const percent = (value: number): string => `${Math.round(value * 100) / 100} %`;
const say = (words: string): void => void process.stdout.write(`${words}\n`);
say(
  `Idle for ${seconds} s with a task open: ${percent(share)} of one processor (budget 1 %): ` +
    `server ${percent(shareOf('server'))}, browser ${percent(shareOf('browser'))}`,
);
say(
  `The built program: ${sizeMB(join(root, 'dist', 'renderer'))} MB page, ${sizeMB(join(root, 'dist', 'main'))} MB shell`,
);
const packages = statSync(join(root, 'dist', 'packages'), { throwIfNoEntry: false });
say(
  packages === undefined
    ? 'No package in dist/packages: its size is not known here'
    : `The packages: ${sizeMB(join(root, 'dist', 'packages'))} MB`,
);
process.exitCode = share < 1 ? 0 : 1;
