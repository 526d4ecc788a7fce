import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { CourseProblem } from '../../shared-types/outing.ts';
import type { TaskOuting, TaskStep } from '../../shared-types/records/task.ts';
import { outingMinutes } from '../../renderer/engine/outing/planProblems.ts';
import { readableTask } from '../../renderer/engine/records/readableTask.ts';
import { addOuting, editOuting, moveOuting } from '../../renderer/features/outings/outingActs.ts';
import { draftOfOuting, outingChecks, outingOf, renamedRoles } from '../../renderer/features/outings/outingDraft.ts';
import { inOrderOfTime, markText, problemMarksLayout } from '../../renderer/features/outings/problemMarksLayout.ts';
import { pairsWithout } from '../../renderer/features/outings/roleLines.ts';
import { scheduleOf } from '../../renderer/features/outings/schedule.ts';
import { clockText, timelineLayout } from '../../renderer/features/outings/timelineLayout.ts';

const outing = (code: string, position: number, more: Partial<TaskOuting> = {}): TaskOuting => ({
  ...{ id: `o-${code}`, rev: 1, task: 't', position, code, roles: ['Lead', 'Second', 'Winch'], bags: [] },
  ...more,
});
const step = (code: string, more: Partial<TaskStep> = {}): TaskStep => ({
  ...{ id: `k-${code}`, rev: 1, task: 't', position: 1, code, outing: '1', role: 'Lead', action: 'use' },
  ...more,
});

describe('the course of an outing', () => {
  test('steps run one after another, those of a slot at once, each role its own in turn', () => {
    const course = scheduleOf([
      step('a', { minutes: 10 }),
      step('b', { minutes: 4, slot: 's' }),
      step('c', { minutes: 6, slot: 's', role: 'Second' }),
      step('d', { minutes: 5 }),
      step('e', { minutes: 3, slot: 's' }),
      step('f', { minutes: 99, contingency: true }),
      step('g'),
    ]);
    expect(course.spans.map((span) => [span.step.code, span.startMin, span.endMin])).toEqual([
      ['a', 0, 10],
      ['b', 10, 14],
      ['c', 10, 16],
      ['e', 14, 17],
      ['d', 17, 22],
      ['g', 22, 22],
    ]);
    expect(course).toMatchObject({ endMin: 22, workMin: 28 });
    expect(course.aside.map(({ code }) => code)).toEqual(['f']);
  });

  test('it ends when the engine says that it does, whatever the steps', () => {
    const one = fc.record({
      minutes: fc.option(fc.integer({ min: 0, max: 40 }), { nil: undefined }),
      slot: fc.option(fc.constantFrom('s', 't'), { nil: undefined }),
      role: fc.constantFrom('Lead', 'Second', 'Winch'),
      contingency: fc.boolean(),
    });
    fc.assert(
      fc.property(fc.array(one, { maxLength: 14 }), (asked) => {
        const steps = asked.map(({ minutes, slot, role, contingency }, index) =>
          step(`s${index}`, {
            ...{ position: index, role, contingency },
            ...(minutes === undefined ? {} : { minutes }),
            ...(slot === undefined ? {} : { slot }),
          }),
        );
        const { resolved, complete } = readableTask({
          task: { id: 't', rev: 1, code: 'T', name: 'Task', shelves: [], places: [] },
          ...{ outings: [outing('1', 1)], steps, interfaces: [], sites: [], shelves: [], items: [] },
        });
        const [resolvedOuting] = resolved.outings;
        if (resolvedOuting === undefined) throw new Error('no outing');
        expect(complete).toBe(true);
        expect(scheduleOf(steps).endMin).toBe(outingMinutes(resolved, resolvedOuting));
      }),
      { seed: 20261125, numRuns: 200 },
    );
  });
});

describe('the drawing of a course', () => {
  const steps = [
    step('a', { minutes: 30 }),
    step('b', { minutes: 15, role: 'Second' }),
    step('c', { minutes: 60, role: 'Winch' }),
    step('d'),
  ];
  const layout = (minutesMax: number | null, widthPx = 900) =>
    timelineLayout({
      schedule: scheduleOf(steps),
      roles: ['Lead', 'Second', 'Winch'],
      minutesMax,
      numberOf: (id) => steps.findIndex((one) => one.id === id) + 1,
      nameOf: (id) => `Step ${id}`,
      widthPx,
    });

  test('every box is as long as its step, at one scale', () => {
    const { boxes, pxPerMin, leftPx } = layout(null);
    expect(boxes.map(({ widthPx }) => widthPx / pxPerMin)).toEqual(
      [30, 15, 60, 0].map((min) => expect.closeTo(min, 9)),
    );
    expect(boxes.map(({ x }) => (x - leftPx) / pxPerMin)).toEqual(
      [0, 30, 45, 105].map((min) => expect.closeTo(min, 9)),
    );
    expect(boxes.map(({ lane }) => lane)).toEqual([0, 1, 2, 0]);
  });

  test('what runs past the limit is marked, and what ends on it is not', () => {
    expect(layout(44).boxes.map(({ over }) => over)).toEqual([false, true, true, true]);
    expect(layout(45).boxes.map(({ over }) => over)).toEqual([false, false, true, true]);
    expect(layout(105).boxes.some(({ over }) => over)).toBe(false);
  });

  test('a limit beyond the last step is in the drawing too', () => {
    const { limit, rightPx, endX } = layout(210);
    expect(limit?.x).toBeCloseTo(rightPx, 9);
    expect(endX).toBeLessThan(rightPx);
  });

  test('ticks stand at whole steps of the clock and not upon each other', () => {
    const { ticks } = layout(null);
    expect(ticks.map(({ text }) => text).slice(0, 3)).toEqual(['0:00', '0:10', '0:20']);
    for (const [index, { x }] of ticks.entries())
      if (index > 0) expect(x - (ticks[index - 1]?.x ?? 0)).toBeGreaterThan(60);
  });

  test('clock times are hours and minutes, with what is over', () => {
    expect([0, 9, 60, 125, 90.5, 1440].map(clockText)).toEqual(['0:00', '0:09', '1:00', '2:05', '1:30.5', '24:00']);
  });

  test('two thousand short steps are still a drawing of a bounded width', () => {
    const many = Array.from({ length: 2000 }, (_, at) => step(`m${at}`, { minutes: at === 0 ? 0.1 : 5 }));
    const { widthPx, boxes } = timelineLayout({
      ...{ schedule: scheduleOf(many), roles: ['Lead'], minutesMax: null, numberOf: () => 1, nameOf: () => 'x' },
      widthPx: 900,
    });
    expect(widthPx).toBeLessThanOrEqual(8001);
    expect(boxes).toHaveLength(2000);
  });
});

describe('marks of problems', () => {
  const schedule = scheduleOf(Array.from({ length: 12 }, (_, at) => step(`s${at}`, { minutes: 1 })));
  const problem = (of: string | null, quantity = 1): CourseProblem => ({
    ...{ rule: 'loose', outing: '1', step: of, id: 'F', kind: 'fastener', quantity, mends: [] },
  });

  test('are numbered by time, those of the outing as a whole first, and none lies on another', () => {
    const found = ['s7', 's2', null, 's2', 's11', 's3'].map((of, index) => problem(of, index + 1));
    const ordered = inOrderOfTime(found, schedule);
    expect(ordered.map((one) => one.step)).toEqual([null, 's2', 's2', 's3', 's7', 's11']);
    const marks = problemMarksLayout(ordered, schedule, { at: (minutes) => 100 + minutes * 4, leftPx: 100 });
    expect(marks.map(markText)).toEqual(['1', '2, 3', '4', '5', '6']);
    for (const [index, mark] of marks.entries()) {
      expect(mark.markX).toBeGreaterThanOrEqual(mark.x);
      const before = marks[index - 1];
      if (before !== undefined) expect(mark.markX - before.markX).toBeGreaterThan(28 + 6 * markText(before).length);
    }
  });

  test('outings at one scale begin at one place, however long their names', () => {
    const at = (roles: string[]) =>
      timelineLayout({
        ...{ schedule, roles, minutesMax: null, minutesLeast: 90, leftLeastPx: Infinity, widthPx: 900 },
        ...{ numberOf: () => 1, nameOf: () => 'x' },
      });
    const [short, long] = [at(['A']), at(['Leitungsverantwortliche am oberen Mast'])];
    expect(short.leftPx).toBe(long.leftPx);
    expect(short.pxPerMin).toBe(long.pxPerMin);
    expect(short.pxPerMin * 90).toBeCloseTo(short.rightPx - short.leftPx, 9);
  });
});

describe('what is said of roles', () => {
  test('stands at the line of its role, and half of it is refused there', () => {
    const draft = {
      ...outing('1', 1),
      ...{ roleLines: [{ name: 'A' }, { name: '', carries: '4 kg' }, { name: 'B', carries: '5' }] },
      pairLines: [
        { one: 0, other: null },
        { one: 2, other: 2 },
      ],
    };
    expect(outingChecks(draft, { outings: [], steps: [] }, null).map(({ path }) => path)).toEqual([
      'roleLines.1',
      'pairLines.0.other',
      'roleLines.2.carries',
      'pairLines.1.other',
    ]);
  });

  test('is what was kept, whatever the form made of it', () => {
    const kept = outing('1', 1, { carryMax: [{ role: 'Second', mass: '9 lb' }], swaps: [['Winch', 'Lead']] });
    expect(outingOf(draftOfOuting(kept))).toEqual(kept);
    expect(outingOf(draftOfOuting(outing('1', 1)))).toEqual(outing('1', 1));
    expect(outingOf(draftOfOuting(outing('1', 1, { swaps: [] })))).toEqual(outing('1', 1, { swaps: [] }));
  });

  test('of a role that is taken out goes with it, and the others keep their own', () => {
    const pairs = [
      { one: 0, other: 2 },
      { one: 1, other: 2 },
    ];
    expect(pairsWithout(pairs, 0)).toEqual([{ one: 0, other: 1 }]);
    expect(pairsWithout(pairs, 2)).toEqual([]);
  });
});

describe('changing outings', () => {
  const rows = {
    outings: [outing('1', 1024), outing('2', 2048)],
    steps: [step('a', { role: 'Winch' }), step('b', { role: 'Lead' }), step('c', { outing: '2', role: 'Winch' })],
  };
  const [first, second] = rows.outings;
  if (first === undefined || second === undefined) throw new Error('two outings');

  test('a new one comes last', () => {
    const act = addOuting(rows, outing('3', 0));
    expect(act.title).toBe('Add outing 3');
    expect(act.proposals).toEqual([{ table: 'outings', put: outing('3', 3072) }]);
  });

  test('its steps follow its code and the names of its roles, those of other outings do not', () => {
    const draft = { roleLines: [{ name: 'Lead', was: 'Lead' }, { name: 'Base', was: 'Winch' }, { name: 'new' }] };
    const act = editOuting(rows, first, { ...first, code: 'out', roles: ['Lead', 'Base'] }, renamedRoles(draft));
    expect(act.title).toBe('Edit outing 1');
    expect(act.proposals.slice(1)).toEqual([
      { table: 'steps', put: step('a', { role: 'Base', outing: 'out' }) },
      { table: 'steps', put: step('b', { role: 'Lead', outing: 'out' }) },
    ]);
  });

  test('it moves past its neighbour, and at the end there is none', () => {
    expect(moveOuting(rows, first, -1)).toBeNull();
    expect(moveOuting(rows, second, 1)).toBeNull();
    expect(moveOuting(rows, first, 1)).toMatchObject({
      title: 'Move outing 1 down',
      proposals: [{ put: { code: '1', position: 3072 } }],
    });
  });

  test('a code that another has, a role twice, a role without a name that has steps are refused', () => {
    const draft = {
      ...first,
      code: '2',
      roleLines: [{ name: '', was: 'Winch' }, { name: 'Lead', was: 'Lead' }, { name: 'Lead' }],
    };
    const faults = outingChecks(draft, rows, first);
    expect(faults.map(({ path }) => path)).toEqual(['code', 'roleLines.0', 'roleLines.2']);
    expect(faults.map(({ message }) => message).join(' ')).toContain('does 1 step of this outing');
  });
});
