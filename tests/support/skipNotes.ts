import { writeFileSync } from 'node:fs';
import type { Reporter, SerializedError, TestModule } from 'vitest/node';
import type { Skipped } from './result.ts';

/** What vitest's own JSON report leaves out. */
export interface Notes {
  skipped: Skipped[];
  /** Errors outside any test: a rejected promise, a worker that died. */
  unhandled: number;
}

/** The variable that tells the reporter which file to write. */
export const notesVariable = 'BAGWRIGHT_TEST_NOTES';

/** A reporter for vitest: writes the reasons given for skipped tests to the file named by the variable. */
export default class SkipNotes implements Reporter {
  onTestRunEnd(modules: readonly TestModule[], unhandledErrors: readonly SerializedError[]): void {
    const path = process.env[notesVariable];
    if (path === undefined) return;
    const skipped = modules.flatMap((module) =>
      [...module.children.allTests('skipped')]
        .filter(({ options }) => options.mode !== 'todo')
        .map((test): Skipped => {
          const result = test.result();
          return { test: test.fullName, reason: (result.state === 'skipped' ? result.note : undefined) ?? '' };
        }),
    );
    writeFileSync(path, JSON.stringify({ skipped, unhandled: unhandledErrors.length } satisfies Notes));
  }
}
