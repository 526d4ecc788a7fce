/**
 * What the program costs while nobody touches it, and how large it is: `npx tsx tests/bench/idle.ts [SECONDS]`. The production page
 * with a worked example open, the real server and the browser's processes; processor time, which other work of the machine does
 * not count towards. On Linux alone, where the system lists the time of each process.
 */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { root } from '../../electron/launch/build.ts';
import { openDemo } from '../e2e/driveWindow.ts';
import { closeSharedBrowser, openBuilt } from '../e2e/support/openBuilt.ts';

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
  /** This process: the server, and what drives the browser here and would not be there. */
  server: number;
  browser: number;
}

/** Processor seconds. */
function spentS(): Spent {
  const all = processes();
  const isOurs = (id: number): boolean => id === process.pid || (id > 1 && isOurs(all.get(id)?.parent ?? 0));
  const own = all.get(process.pid)?.ticks ?? 0;
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
const built = await openBuilt();
await built.page.getByRole('heading', { name: 'What do you have in front of you?' }).waitFor();
await openDemo(built.page, 'Skua Rock light');
await pause(5_000);
const before = spentS();
await pause(seconds * 1_000);
const after = spentS();
const shareOf = (part: keyof Spent): number => ((after[part] - before[part]) / seconds) * 100;
const share = shareOf('server') + shareOf('browser');
const percent = (value: number): string => `${Math.round(value * 100) / 100} %`;
await built.close();
await closeSharedBrowser();
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
