import type { Finding, FindingSource } from '../../../shared-types/judged.ts';

/** What many findings have alike, said once, by number. */
export interface NumberedList {
  /** In one line each, the first being number 1. */
  lines: string[];
  /** The number of a finding's. */
  of(finding: Finding): number;
}

/** A source in one line: document, title, edition, table, and how the value came here. */
export function sourceLine(source: FindingSource): string {
  if (typeof source === 'string') return source;
  const { number, title, edition, table, obtained } = source;
  return `${number}, ${title}, ${edition}, ${table} (${obtained})`;
}

/** Every source that findings name. */
export function sourceList(findings: readonly Finding[]): NumberedList {
  return numberedList(findings, ({ source }) => sourceLine(source));
}

export function numberedList(findings: readonly Finding[], lineOf: (finding: Finding) => string): NumberedList {
  const numbers = new Map<string, number>();
  for (const finding of findings) {
    const line = lineOf(finding);
    if (!numbers.has(line)) numbers.set(line, numbers.size + 1);
  }
  return { lines: [...numbers.keys()], of: (finding) => numbers.get(lineOf(finding)) ?? 0 };
}
