import { fork, type ChildProcess } from 'node:child_process';
import { statSync } from 'node:fs';
import { join } from 'node:path';
import type { Order, Outcome } from './testRuns.ts';

const sizeOf = (log: string | undefined): number => (log === undefined ? 0 : statSync(log).size);

/** A process that runs tests as it is told, and is begun anew after one that did not come to its end. */
export class Worker {
  private child: ChildProcess | null = null;
  private readonly root: string;
  private readonly list: string;

  constructor(root: string, list: string) {
    this.root = root;
    this.list = list;
  }

  /** What came of an order; null where nothing was heard of it for longer than it may take. */
  carryOut(order: Order, quietMs: number): Promise<Outcome | null> {
    const child = (this.child ??= this.started());
    return new Promise((resolve, reject) => {
      const end = (outcome: Outcome | null) => {
        clearInterval(timer);
        child.removeAllListeners();
        resolve(outcome);
      };
      let [told, sinceMs] = [sizeOf(order.log), performance.now()];
      const timer = setInterval(() => {
        const size = sizeOf(order.log);
        if (size !== told) [told, sinceMs] = [size, performance.now()];
        if (performance.now() - sinceMs < quietMs) return;
        this.stop();
        end(null);
      }, 500);
      child.once('message', (outcome: Outcome) => end(outcome));
      child.once('error', reject);
      // A mutant that brings the whole process down has not gone unnoticed.
      child.once('exit', (code) => {
        this.child = null;
        end({ files: [], fault: `the process ended with ${code}` });
      });
      child.send(order);
    });
  }

  stop(): void {
    this.child?.kill('SIGKILL');
    this.child = null;
  }

  private started(): ChildProcess {
    const program = join(this.root, 'tests', 'mutants', 'engine', 'testRuns.ts');
    return fork(program, [this.root, this.list], {
      cwd: this.root,
      execArgv: process.execArgv,
      stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
      env: { ...process.env, NO_COLOR: '1', NODE_NO_WARNINGS: '1' },
    });
  }
}
