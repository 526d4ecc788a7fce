import { AsyncLocalStorage } from 'node:async_hooks';
import { spawn } from 'node:child_process';
import { stripVTControlCharacters } from 'node:util';
import { root } from './tracked.ts';

/** How a program ended. */
export interface Ended {
  code: number | null;
  /** What it printed on both streams, in order. */
  text: string;
  /** Set where it ran longer than it may and was stopped. */
  outOfTime: boolean;
}

/** Where it holds true, programs are started so that they give way to others: what is judged by the clock runs beside. */
export const givesWay = new AsyncLocalStorage<boolean>();

const running = new Set<() => void>();

/** Stops whatever is still running; for the moment the run itself is broken off. */
export function stopAll(): void {
  for (const stop of running) stop();
}

/**
 * Runs Node with `args` from the root of the repository, with no standard input. It gets a process group of its own:
 * a suite that hangs is stopped together with the browsers and servers it started.
 */
export function runNode(args: readonly string[], limitS: number, environment: NodeJS.ProcessEnv = {}): Promise<Ended> {
  return runProgram(process.execPath, args, limitS, environment);
}

export function runProgram(
  program: string,
  args: readonly string[],
  limitS: number,
  environment: NodeJS.ProcessEnv = {},
): Promise<Ended> {
  const inGroup = process.platform !== 'win32';
  // At the start, so that its threads and whatever it starts itself have it from it.
  const started = inGroup && givesWay.getStore() === true ? ['nice', '-n', '5', program, ...args] : [program, ...args];
  return new Promise((resolve) => {
    const child = spawn(started[0] ?? program, started.slice(1), {
      cwd: root,
      detached: inGroup,
      stdio: ['ignore', 'pipe', 'pipe'],
      env: { ...process.env, NO_COLOR: '1', FORCE_COLOR: '0', ...environment },
    });
    let text = '';
    let outOfTime = false;
    const stop = () => {
      try {
        if (inGroup && child.pid !== undefined) process.kill(-child.pid, 'SIGKILL');
        else child.kill('SIGKILL');
      } catch {
        // It ended in the meantime.
      }
    };
    const timer = setTimeout(() => {
      outOfTime = true;
      stop();
    }, limitS * 1000);
    const end = (code: number | null) => {
      clearTimeout(timer);
      running.delete(stop);
      // A worker or browser left behind in the group would hold ports and memory through the next stage.
      stop();
      resolve({ code, text: stripVTControlCharacters(text), outOfTime });
    };
    running.add(stop);
    child.stdout.on('data', (chunk: Buffer) => (text += chunk.toString()));
    child.stderr.on('data', (chunk: Buffer) => (text += chunk.toString()));
    child.on('error', (error) => {
      text += String(error);
      end(null);
    });
    child.on('exit', () => setTimeout(() => child.stdout.destroy(), 1000).unref());
    child.on('close', end);
  });
}
