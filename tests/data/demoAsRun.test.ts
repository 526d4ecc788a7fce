/** The demonstration's callouts and as-run records: published bands, invented records, judged. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { judgeAsRun } from '../../renderer/engine/asrun/index.ts';
import { planSchema } from '../../shared-types/plan.ts';

const text = (name: string): string => readFileSync(new URL(`../../data/demo/${name}`, import.meta.url), 'utf8');

/** A demonstration table's rows, each cell by the name of its column. */
function rowsOf(name: string): Record<string, string>[] {
  const [header = [], ...records] = recordsOf(text(name));
  return records.map((cells) => Object.fromEntries(header.map((column, index) => [column, cells[index] ?? ''])));
}

function recordsOf(csv: string): string[][] {
  return csv
    .trimEnd()
    .split('\n')
    .map((line) =>
      [...line.matchAll(/("(?:[^"]|"")*"|[^,]*)(?:,|$)/g)].map(([, cell = '']) => cell.replace(/^"|"$/g, '')),
    );
}

const counted = (rules: readonly string[]): Record<string, number> =>
  Object.fromEntries([...new Set(rules)].toSorted().map((rule) => [rule, rules.filter((one) => one === rule).length]));

const demos = [
  {
    name: 'skua-rock-light',
    summary: { conforming: 30, nonconforming: 6, indeterminate: 17 },
    rules: {
      'breakaway-under-limit': 1,
      'final-outside-callout': 3,
      'locking-wears-out': 2,
      'out-of-sequence': 1,
      'running-over-limit': 1,
      'seating-outside-callout': 1,
      'set-not-read': 8,
      'site-temperature': 1,
      'tool-found-out': 4,
      'tool-overdue': 3,
      'turns-off-pattern': 1,
    },
    reopened: [['SK-150', 4]],
    passing: ['not-before', 'cannot-know', 'not-before', 'under-already'],
  },
  {
    name: 'tarn-array',
    summary: { conforming: 22, nonconforming: 4, indeterminate: 14 },
    rules: {
      'breakaway-under-limit': 2,
      'final-outside-callout': 1,
      'locking-wears-out': 1,
      'running-over-limit': 1,
      'seating-outside-callout': 1,
      'set-not-read': 4,
      'site-temperature': 6,
      'tool-found-out': 6,
      'tool-overdue': 4,
      'turns-off-pattern': 1,
    },
    reopened: [['TA-050', 6]],
    passing: ['not-before', 'not-before', 'under-already', 'under-already'],
  },
];

describe.each(demos)('$name', ({ name, summary, rules, reopened, passing }) => {
  const plan = planSchema.parse(JSON.parse(text(`${name}.json`)));
  const callouts = rowsOf(`${name}-callouts.csv`);
  const records = rowsOf(`${name}-as-run.csv`);

  it('calls out what its plan does: the published band of each step, with its citation', () => {
    const tightening = plan.steps.filter(({ action }) => action === 'tighten');
    expect(callouts.map(({ id }) => id)).toEqual(tightening.map(({ id }) => id));
    for (const [index, step] of tightening.entries()) {
      const fastener = plan.catalog.fasteners.find(({ id }) => id === step.fastener);
      expect(callouts[index]).toMatchObject({
        thread: fastener?.thread,
        torqueMin: step.callout?.min,
        torqueMax: step.callout?.max,
        runningMin: step.running?.min ?? '',
        runningMax: step.running?.max ?? '',
        runningIncluded: step.runningIncluded === false ? 'no' : 'yes',
        source: step.calloutSource,
      });
      const locking = callouts[index]?.['locking'] ?? '';
      expect(locking === '').toBe(step.running === undefined);
      if (locking !== '') expect(step.notes).toContain(locking);
    }
  });

  it('records every position of every step, with tools of the plan, and says of each row that it is invented', () => {
    expect(records.filter(({ notes }) => notes !== 'Invented.')).toEqual([]);
    expect(rowsOf(`${name}-tools.csv`).filter(({ notes }) => notes !== 'Invented.')).toEqual([]);
    const tools = new Set(plan.catalog.torqueTools.map(({ id }) => id));
    expect(records.filter(({ tool }) => !tools.has(tool ?? ''))).toEqual([]);
    for (const step of plan.steps.filter(({ action }) => action === 'tighten')) {
      const positions = new Set(records.filter(({ callout }) => callout === step.id).map(({ position }) => position));
      expect([step.id, positions.size]).toEqual([step.id, step.count ?? 1]);
    }
  });

  const file = (kind: string) => ({ content: text(`${name}-${kind}.csv`), file: `${name}-${kind}.csv` });
  const judged = judgeAsRun({
    asRun: file('as-run'),
    callouts: file('callouts'),
    tools: file('tools'),
    skipBad: false,
  });

  it('has records inside and outside their limits', () => {
    expect(judged.summary).toEqual(summary);
    expect(counted(judged.rows.flatMap(({ findings }) => findings.map(({ rule }) => rule)))).toEqual(rules);
  });

  it('re-opens what a tool set that was found out, and follows the wear of its locking nuts', () => {
    expect(judged.reopened?.map(({ serial, rows }) => [serial, rows.length])).toEqual(reopened);
    expect(judged.series.map(({ passing: { status } }) => status)).toEqual(passing);
  });
});
