import type { JudgedLine, TableJudged } from '../../../shared-types/inspection.ts';

/**
 * What judged lines come to.
 *
 * @returns counts of lines by decision, of what is open, and of how often each rule fired
 */
export function tallyOf(lines: readonly JudgedLine[]): Pick<TableJudged, 'summary' | 'open' | 'openRows' | 'rules'> {
  const summary = { conforming: 0, nonconforming: 0, indeterminate: 0, unreadable: 0 };
  const openRows = { nonconforming: 0, indeterminate: 0 };
  const rules: Record<string, number> = {};
  let open = 0;
  for (const line of lines) {
    summary[line.state] += 1;
    open += line.open;
    if (line.open > 0 && (line.state === 'nonconforming' || line.state === 'indeterminate')) openRows[line.state] += 1;
    for (const { rule } of line.findings) rules[rule] = (rules[rule] ?? 0) + 1;
  }
  return { summary, open, openRows, rules };
}
