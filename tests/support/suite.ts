import { copyFileSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { binOf } from './installed.ts';
import { runNode } from './command.ts';
import { countSuite, type Report } from './countSuite.ts';
import type { Result } from './result.ts';
import { type Notes, notesVariable } from './skipNotes.ts';

function readJson<T>(path: string): T | null {
  return existsSync(path) ? (JSON.parse(readFileSync(path, 'utf8')) as T) : null;
}

/** Where the variable names a folder, what each suite said of each file and test, with its times, is kept there. */
function keepReport(path: string, projects: readonly string[]): void {
  const folder = process.env['BAGWRIGHT_REPORTS'];
  if (folder === undefined || !existsSync(path)) return;
  mkdirSync(folder, { recursive: true });
  copyFileSync(path, join(folder, `${projects.join('-')}.json`));
}

/** Runs projects of tests/vitest.config.ts, all in one run. */
export async function runSuite(projects: readonly string[], limitS: number): Promise<Result> {
  const folder = mkdtempSync(join(tmpdir(), 'bagwright-report-'));
  const reportPath = join(folder, 'report.json');
  const notesPath = join(folder, 'notes.json');
  try {
    const args = ['--config', 'tests/vitest.config.ts', 'run', ...projects.flatMap((name) => ['--project', name])];
    const reporters = ['default', 'json', './tests/support/skipNotes.ts'].map((name) => `--reporter=${name}`);
    const ended = await runNode([binOf('vitest'), ...args, ...reporters, `--outputFile.json=${reportPath}`], limitS, {
      [notesVariable]: notesPath,
    });
    keepReport(reportPath, projects);
    return countSuite(readJson<Report>(reportPath), readJson<Notes>(notesPath), ended, limitS);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
