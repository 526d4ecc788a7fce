import type { Result } from './result.ts';

export interface Finished {
  name: string;
  seconds: number;
  result: Result;
}

const seconds = (value: number) => `${Math.round(value * 10) / 10} s`;

/** One stage in one line. */
export function lineOf({ name, seconds: took, result }: Finished): string {
  const { passed, failed, skipped, detail } = result;
  const word = failed === 0 ? 'passed' : 'FAILED';
  const counts = [`${passed} passed`, `${failed} failed`, ...(skipped.length > 0 ? [`${skipped.length} skipped`] : [])];
  const what = [counts.join(', '), detail].filter((part) => part !== '').join(', ');
  return `${name.padEnd(10)}  ${word}  ${seconds(took).padStart(8)}  ${what}`;
}

function table(finished: readonly Finished[]): string[] {
  const header = ['stage', 'result', 'passed', 'failed', 'skipped', 'time'];
  const rows = finished.map(({ name, seconds: took, result: { passed, failed, skipped } }) => [
    name,
    failed === 0 ? 'passed' : 'FAILED',
    String(passed),
    String(failed),
    String(skipped.length),
    seconds(took),
  ]);
  const widths = header.map((title, column) => Math.max(title.length, ...rows.map((row) => row[column]?.length ?? 0)));
  const asLine = (row: readonly string[]) =>
    row
      .map((cell, column) => (column < 2 ? cell.padEnd(widths[column] ?? 0) : cell.padStart(widths[column] ?? 0)))
      .join('  ');
  return [asLine(header), widths.map((width) => '-'.repeat(width)).join('  '), ...rows.map(asLine)];
}

/** Why each test that did not run did not; tests with the same reason in one line. */
function notRun(finished: readonly Finished[]): string[] {
  const byReason = new Map<string, string[]>();
  for (const { name, result } of finished) {
    for (const { test, reason } of result.skipped) {
      const key = `${name}: ${reason.replace(/^not run here:\s*/i, '')}`;
      byReason.set(key, [...(byReason.get(key) ?? []), test]);
    }
  }
  return [...byReason].map(([reason, tests]) => `not run here: ${reason} (${tests.join('; ')})`);
}

/** The table, what did not run, and last the one line everything comes down to. */
export function summaryOf(finished: readonly Finished[]): string {
  const sum = (count: (result: Result) => number) => finished.reduce((total, { result }) => total + count(result), 0);
  const skipped = sum((result) => result.skipped.length);
  const last = `${sum(({ passed }) => passed)} passed, ${sum(({ failed }) => failed)} failed`;
  const reasons = notRun(finished);
  return [
    ...table(finished),
    '',
    ...reasons,
    ...(reasons.length > 0 ? [''] : []),
    skipped > 0 ? `${last}, ${skipped} skipped` : last,
  ].join('\n');
}
