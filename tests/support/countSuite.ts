import type { Ended } from './command.ts';
import type { Result } from './result.ts';
import type { Notes } from './skipNotes.ts';

/** The part of vitest's JSON report that is counted. */
export interface Report {
  testResults: {
    name: string;
    status: string;
    message: string;
    assertionResults: { fullName: string; status: string }[];
  }[];
}

/**
 * Counts a run of vitest so that nothing passes by not happening. Besides a test that fails, one failure each is
 * counted for: a file that did not load or whose hooks failed, a test put off or left unfinished, a test skipped
 * without a reason, an error outside any test, a run without one test, a run that broke off.
 */
export function countSuite(report: Report | null, notes: Notes | null, ended: Ended, limitS: number): Result {
  const faults: string[] = [];
  let passed = 0;
  let failed = 0;
  for (const file of report?.testResults ?? []) {
    const count = (status: string) => file.assertionResults.filter((test) => test.status === status).length;
    passed += count('passed');
    failed += count('failed');
    if (file.status === 'failed' && count('failed') === 0) faults.push(`${file.name} did not run: ${file.message}`);
    for (const test of file.assertionResults) {
      if (test.status === 'todo') faults.push(`put off: ${test.fullName}`);
      if (test.status === 'pending') faults.push(`not finished: ${test.fullName}`);
    }
  }
  const skipped = notes?.skipped.filter(({ reason }) => reason !== '') ?? [];
  for (const { test, reason } of notes?.skipped ?? []) {
    if (reason === '') faults.push(`skipped without a reason: ${test}`);
  }
  for (let left = notes?.unhandled ?? 0; left > 0; left -= 1) faults.push('an error outside any test');

  if (ended.outOfTime) faults.push(`stopped: it ran longer than ${limitS} s`);
  else if (report === null || notes === null)
    faults.push(`vitest broke off with exit code ${ended.code} and no report`);
  else if (passed + failed === 0 && faults.length === 0) faults.push('not one test ran');
  else if (ended.code !== 0 && failed + faults.length === 0) faults.push(`vitest ended with exit code ${ended.code}`);

  const all = failed + faults.length;
  return {
    passed,
    failed: all,
    skipped,
    detail: `${report?.testResults.length ?? 0} files`,
    text: all === 0 ? '' : [ended.text.trimEnd(), ...faults].join('\n'),
  };
}
