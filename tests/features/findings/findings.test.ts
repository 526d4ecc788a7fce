/** Everything found of a task in one list, worst first, and the report over several lists. */
import { describe, expect, it } from 'vitest';
import { JudgedRecords, JudgedTable } from '../../../renderer/engine/inspection/index.ts';
import { findingLines, severityOf, shownFindings } from '../../../renderer/features/findings/openFindings.ts';
import { taskReport } from '../../../renderer/features/findings/taskReport.ts';
import type { FoundList } from '../../../renderer/features/findings/useFound.ts';

const typed = (cells: Record<string, string>) => ({ key: `${cells['id'] ?? cells['position']}`, cells });
const columns = ['id', 'thread', 'torqueMin', 'torqueMax', 'runningIncluded'];
const rows = [
  typed({ id: 'A', thread: 'M10', torqueMin: '45 N·m', torqueMax: '50 N·m', runningIncluded: 'yes' }),
  typed({ id: 'B', thread: 'M10', torqueMin: '50 N·m', torqueMax: '45 N·m' }),
  typed({ id: 'C', thread: 'M10', torqueMin: '50', torqueMax: '55 N·m' }),
];
const callouts = new JudgedTable({ columns, rows });
callouts.next(10);
const recorded = [{ callout: 'A', position: '1', cycle: '1', final: '62 N·m' }].map(typed);
const records = new JudgedRecords({
  ...{ columns: ['callout', 'position', 'cycle', 'final'], rows: recorded },
  beside: { callouts: { columns, rows: rows.slice(0, 1) }, tools: [] },
});
records.next(10);
const about = { from: null, notes: [], unknownColumns: [] };
const lists: FoundList[] = [
  { ...about, id: 'l1', name: 'Drawing', kind: 'callouts', rows: callouts.judgedRows(0, 3) },
  { ...about, id: 'l2', name: 'Work', kind: 'as-run', from: 'work.csv', rows: records.judgedRows(0, 1) },
];
const [first] = callouts.judgedRows(1, 1)[0]?.row?.findings ?? [];
const taken = {
  ...{ rule: first?.rule ?? '', message: first?.message ?? '' },
  ...{ reason: 'Drawing note 7', person: 'S. Quill', at: '2026-05-01T10:00:00Z' },
};

const keptB = (accepted: (typeof taken)[]) => (key: string) => (key === 'B' ? { accepted } : undefined);

describe('the findings of a task', () => {
  it('stand worst first, what is accepted last, and a row that cannot be read among them', () => {
    const open = findingLines(lists, () => undefined);
    const ranks = open.map(severityOf);
    expect(ranks.filter((one) => one !== 'query')).toEqual(['reject', 'reject', 'unreadable']);
    expect(ranks.slice(3).every((one) => one === 'query')).toBe(true);
    const after = findingLines(lists, keptB([taken]));
    expect(after.at(-1)).toMatchObject({ id: 'B', accepted: { person: 'S. Quill' } });
    const changed = { ...taken, message: 'it said something else' };
    expect(findingLines(lists, keptB([changed])).every((one) => one.accepted === null)).toBe(true);
  });

  it('are shown as asked for', () => {
    const lines = findingLines(lists, keptB([taken]));
    const of = (view: Partial<Parameters<typeof shownFindings>[1]>) =>
      shownFindings(lines, { text: '', severity: 'all', acceptance: 'all', ...view }).map(({ id }) => id);
    expect(of({ acceptance: 'accepted' })).toEqual(['B']);
    expect(of({ severity: 'unreadable' })).toEqual(['C']);
    expect(of({ text: 'work final' })).toContain('A / 1 / 1');
    expect(of({ text: 'nothing of the kind' })).toEqual([]);
  });
});

describe('the report over them', () => {
  const heading = { name: 'SR-01', task: 'SR-01', site: null, person: 'S. Quill' };
  it('holds callouts and records under the names of their lists, and what cannot be read', () => {
    const report = taskReport(lists, (key) => (key === 'B' ? [taken] : []), heading);
    expect(report.heading).toMatchObject({ subject: 'both', from: 'work.csv' });
    expect(report.rows.map(({ id }) => id)).toEqual(['Drawing: A', 'Drawing: B', 'Work: A / 1 / 1']);
    expect(report.rows[1]?.accepted).toEqual([taken]);
    const { summary } = report;
    expect(summary.conforming + summary.nonconforming + summary.indeterminate).toBe(3);
    expect(report.unreadable[0]?.message).toMatch(/^Drawing: /);
  });

  it('of one list is of its kind alone', () => {
    const report = taskReport(lists.slice(1), () => [], heading);
    expect(report.heading.subject).toBe('as-run');
    expect(report.rows[0]?.id).toBe('A / 1 / 1');
  });
});
