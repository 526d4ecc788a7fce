import type { Finding, FindingSource } from '../../../shared-types/judged.ts';

/** Every source a report names, once, by number. */
export interface SourceList {
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

export function sourceList(findings: Iterable<Finding>): SourceList {
  const numbers = new Map<string, number>();
  for (const { source } of findings) {
    const line = sourceLine(source);
    if (!numbers.has(line)) numbers.set(line, numbers.size + 1);
  }
  return { lines: [...numbers.keys()], of: ({ source }) => numbers.get(sourceLine(source)) ?? 0 };
}
