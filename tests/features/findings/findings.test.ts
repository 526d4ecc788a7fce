/** Everything found of a task in one list, worst first, and the report over several lists. */
import { describe, expect, it } from 'vitest';
import type { Item } from '../../../shared-types/records/item.ts';
import type { Interface } from '../../../shared-types/records/site.ts';
import type { TaskStep } from '../../../shared-types/records/task.ts';
import { JudgedRecords, JudgedTable } from '../../../renderer/engine/inspection/index.ts';
import { findingLines, severityOf, shownFindings } from '../../../renderer/features/findings/openFindings.ts';
import { taskReport } from '../../../renderer/features/findings/taskReport.ts';
import { stepCellColumns, stepsAsCallouts } from '../../../renderer/features/findings/stepCells.ts';
import { besideCallouts } from '../../../renderer/features/findings/stepFindings.ts';
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

describe('the steps among the findings', () => {
  const step = (code: string, more: Partial<TaskStep> = {}): TaskStep => ({
    ...{ id: `key-${code}`, rev: 1, task: 't', position: 0, code, outing: 'o', role: 'r', action: 'tighten' },
    ...{ callout: { min: '45 N·m', max: '50 N·m' }, fastener: 'F-10' },
    ...more,
  });
  const stock: Item[] = [
    {
      ...{ id: 'F-10', rev: 1, shelf: 'x', retired: false, parts: 1, kit: 'field', kind: 'fastener', code: 'F-10' },
      ...{ thread: 'M10', head: { form: 'hex', acrossFlats: '16 mm' } },
    },
  ];
  const interfaces = new Map<string, Interface>([
    ['i-1', { id: 'i-1', rev: 1, site: 'x', code: 'A1', kind: 'fastener', fastener: 'F-10', count: 4 }],
  ]);
  /** The judged steps beside callouts that are judged with them. */
  function judgedSteps(steps: TaskStep[], drawn: Record<string, string>[]) {
    const table = (named: string[], all: { key: string; cells: Record<string, string> }[]) => {
      const made = new JudgedTable({ columns: named, rows: all });
      made.next(100);
      return made.judgedRows(0, 100);
    };
    const calloutNames = ['id', 'thread', 'torqueMin', 'torqueMax', 'interface', 'lubrication'];
    const kept = drawn.map((cells) => ({ key: `key-${cells['id']}`, cells }));
    const asCallouts = stepsAsCallouts(steps, { stock, sites: { interfaces } });
    const of = besideCallouts(
      [
        { ...about, id: 'l', name: 'Drawing', kind: 'callouts', rows: table(calloutNames, kept) },
        { ...about, id: 's', name: 'Steps of the task', kind: 'steps', rows: table([...stepCellColumns], asCallouts) },
      ],
      { steps, interfaces, site: 'x' },
    );
    return { lists: of, rows: of[1]?.kind === 'steps' ? of[1].rows : [] };
  }
  const rulesOf = (row: ReturnType<typeof judgedSteps>['rows'][number] | undefined) =>
    row?.row?.findings.map(({ rule }) => rule) ?? [];

  it('are each the callout that they are, of their fastener, named by their step; one without a fastener cannot be read', () => {
    const steps = [
      step('a', { name: 'Close' }),
      step('b', { action: 'loosen' }),
      step('c', { fastener: undefined as never }),
    ];
    const { lists: of } = judgedSteps(steps, []);
    const lines = findingLines(of, () => undefined);
    expect(lines.map(({ id, kind, finding }) => [id, kind, finding?.rule ?? null])).toEqual([
      ['3 · c', 'steps', null],
      ['1 · Close', 'steps', 'outside-published-band'],
    ]);
    expect(lines[0]?.message).toMatch(/thread/);
  });

  it('that ask for something else than their callout are a query in plain words', () => {
    const at = { interface: 'i-1' };
    const callout = { id: 'C-1', thread: 'M10', torqueMin: '40 N·m', torqueMax: '50 N·m', interface: 'A1' };
    const differs = (more: Partial<TaskStep>, ...drawn: Record<string, string>[]) =>
      judgedSteps([step('a', more)], drawn).rows[0]?.row?.findings.find(({ rule }) => rule === 'step-differs');
    const found = differs(at, callout);
    expect(found).toMatchObject({ severity: 'query', value: 45, limit: 40, unit: 'N·m' });
    expect(found?.message).toBe(
      'The step asks for 45 N·m to 50 N·m; callout C-1 of “Drawing”, for the same interface A1, asks for 40 N·m to 50 N·m.',
    );
    const same = { ...callout, id: 'C-2', torqueMin: '4500 cN·m', torqueMax: '50 N·m' };
    expect(differs(at, same)).toBeUndefined();
    expect(differs(at, callout, same)).toBeUndefined();
    expect(differs(at, callout, { ...callout, id: 'C-3' })?.message).toContain('None of the 2 callouts');
    // Another thread at the same interface is another fastener; another interface is another place.
    expect(differs(at, { ...callout, thread: 'M8' })).toBeUndefined();
    expect(differs({}, callout)).toBeUndefined();
    expect(differs({}, { ...callout, id: 'a' })?.message).toContain('which has its code');
    const from = { calloutFrom: { kind: 'callout', callout: 'key-C-1', id: 'C-1' } } as const;
    expect(differs({ ...at, ...from }, callout, same)?.message).toContain('from which it took its torque');
  });

  it('do not say again what their callout says, and are decided by it all the same', () => {
    const callout = { id: 'a', thread: 'M10', torqueMin: '45 N·m', torqueMax: '50 N·m' };
    const [row] = judgedSteps([step('a')], [callout]).rows;
    expect(rulesOf(row)).not.toContain('outside-published-band');
    expect(rulesOf(row)).toContain('as-its-callout');
    expect(row?.row?.decision).toBe('indeterminate');
    expect(rulesOf(judgedSteps([step('a')], []).rows[0])).toContain('outside-published-band');
  });
});
