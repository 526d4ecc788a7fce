/** F2 runs within a browser, as a test that kills a move to a new working copy at every one of its steps; here is its line. */
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { binOf } from '../support/installed.ts';
import { runNode } from '../support/command.ts';
import { root } from '../support/tracked.ts';
import type { Failure } from './part.ts';
import { notTried, type Line } from './table.ts';

const fault = {
  of: 'F2',
  fault: 'kill at every step of going over from each released version, and again in what follows',
};
const test = 'tests/browser/storeMoveOver.test.ts';
const timesEach = 20;
const limitS = 7200;

interface Reported {
  testResults: {
    assertionResults: {
      fullName: string;
      status: string;
      failureMessages: string[];
      /** How many kills the test tried, as it says itself. */
      meta?: { kills?: number };
    }[];
  }[];
}

/** @param share - of the twenty times; once at least */
export async function migrationLine(seed: number, share: number, progress: (text: string) => void): Promise<Line> {
  if (!existsSync(join(root, test))) return notTried(fault, `there is no ${test}`);
  const times = Math.max(1, Math.round(timesEach * share));
  progress(`${fault.of} ${fault.fault}: ${times} times …`);
  const folder = mkdtempSync(join(tmpdir(), 'bagwright-migration-'));
  const [report, began] = [join(folder, 'report.json'), performance.now()];
  try {
    const args = [
      '--config',
      'tests/vitest.config.ts',
      'run',
      '--project',
      'browser',
      test,
      '-t',
      'killed at every step',
    ];
    const { text } = await runNode([binOf('vitest'), ...args, '--reporter=json', `--outputFile=${report}`], limitS, {
      VITE_MIGRATION_TRIALS: String(times),
      VITE_MIGRATION_SEED: String(seed),
    });
    if (!existsSync(report)) return lineOf(0, [broken(0, text)], began);
    const { testResults } = JSON.parse(readFileSync(report, 'utf8')) as Reported;
    const ran = testResults.flatMap(({ assertionResults }) => assertionResults);
    const tried = ran.filter(({ status }) => status === 'passed' || status === 'failed');
    const kills = tried.reduce((sum, { meta }) => sum + (meta?.kills ?? 1), 0);
    const failed = tried.filter(({ status }) => status === 'failed');
    const failures = failed.map(({ failureMessages }, at) => broken(at, failureMessages.join('\n')));
    if (tried.length === 0) failures.push(broken(0, `not one of its tests ran: ${text}`));
    return lineOf(kills, failures, began);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const broken = (trial: number, message: string): Failure => ({ trial, kind: 'broken', message });

function lineOf(trials: number, failures: Failure[], began: number): Line {
  const counts = { lost: 0, partial: 0, undetected: 0 };
  const survived = Math.max(0, trials - failures.length);
  return {
    ...fault,
    trials,
    survived,
    ...counts,
    seconds: (performance.now() - began) / 1000,
    notHere: null,
    failures,
  };
}
