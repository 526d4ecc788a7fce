import { statSync } from 'node:fs';
import type { TestSpecification } from 'vitest/node';
import { BaseSequencer } from 'vitest/node';

/**
 * Files that take longest, the longest first. One that is begun last keeps a single worker busy while the others have
 * nothing left; vitest knows durations only where it ran before, and a fresh clone has none.
 */
export const longest: readonly string[] = [
  'tests/e2e/window.test.ts',
  'tests/e2e/looks.test.ts',
  'tests/e2e/faults/damage.test.ts',
  'tests/e2e/print.test.ts',
  'tests/e2e/mainJob.test.ts',
  'tests/e2e/labelsPrint.test.ts',
  'tests/e2e/faults/windows.test.ts',
  'tests/e2e/faults/kill.test.ts',
  'tests/e2e/reportPrint.test.ts',
  'tests/e2e/ocr.test.ts',
  'tests/e2e/longPlans.test.ts',
  'tests/e2e/faults/journal.test.ts',
  'tests/e2e/fromNothing.test.ts',
  'tests/electron/journalProcesses.test.ts',
  'tests/architecture/layers.test.ts',
  'tests/host/browserJournal.test.ts',
  'tests/electron/journalFaults.test.ts',
  'tests/architecture/unused.test.ts',
  'tests/electron/headless/streams.test.ts',
  'tests/electron/headless/bag.test.ts',
  'tests/reference/breaks.test.ts',
  'tests/engine/outing/ledger.test.ts',
  'tests/engine/records/roundTrip.test.ts',
  'tests/electron/headless/course.test.ts',
  'tests/engine/damagedInputs.test.ts',
  'tests/validation/reasons.test.ts',
  'tests/validation/secondSolver.test.ts',
  'tests/validation/secondSolverAgain.test.ts',
  'tests/validation/conversionsReference.test.ts',
  'tests/validation/leastBag.test.ts',
  'tests/browser/taskLooks.test.tsx',
  'tests/browser/asRun.test.tsx',
  'tests/browser/tableImport.test.tsx',
  'tests/browser/byKeysAlone.test.tsx',
  'tests/browser/taskAxe.test.tsx',
  'tests/browser/steps.test.tsx',
  'tests/browser/callouts.test.tsx',
  'tests/browser/catalogDeeds.test.tsx',
  'tests/browser/catalogAxe.test.tsx',
  'tests/browser/catalogMany.test.tsx',
  'tests/browser/bagMap.test.tsx',
  'tests/browser/bagAsking.test.tsx',
  'tests/browser/sites.test.tsx',
  'tests/browser/outingCourse.test.tsx',
  'tests/browser/storeLoad.test.ts',
];

const place = (path: string): number => {
  const found = longest.findIndex((known) => path.replaceAll('\\', '/').endsWith(`/${known}`));
  return found === -1 ? longest.length : found;
};

const bytes = (path: string): number => statSync(path, { throwIfNoEntry: false })?.size ?? 0;

/** Whether a worker is handed on from file to file. It is only as long as the next file is of the same project. */
const handsOn = ({ project }: TestSpecification): number => (project.config.isolate ? 0 : 1);

/**
 * Project by project, those whose files share their workers last: their many short files end together. In each the
 * files of the list, and behind them the larger before the smaller.
 */
export default class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    return files.toSorted((one, other) => {
      const [a, b] = [one.moduleId, other.moduleId];
      const byProject = handsOn(one) - handsOn(other) || one.project.name.localeCompare(other.project.name);
      return byProject || place(a) - place(b) || bytes(b) - bytes(a) || a.localeCompare(b);
    });
  }
}
