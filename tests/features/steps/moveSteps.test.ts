/** Steps put elsewhere: by a drop, by a number, several at once; each move one act. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { TaskOuting, TaskStep } from '../../../shared-types/records/task.ts';
import { inOrder } from '../../../renderer/engine/records/inOrder.ts';
import { landingAtNumber, moveStepsBy, moveStepsTo } from '../../../renderer/features/steps/moveSteps.ts';
import type { Landing } from '../../../renderer/features/steps/moveSteps.ts';
import type { TaskRows } from '../../../renderer/features/steps/stepActs.ts';
import { stepGroups } from '../../../renderer/features/steps/stepLines.ts';
import type { Act } from '../../../renderer/store/store.ts';

const outing = (code: string, position: number): TaskOuting => ({
  ...{ id: `o-${code}`, rev: 1, task: 't', position, code, roles: ['Lead'], bags: [] },
});
const step = (code: string, position: number, more: Partial<TaskStep> = {}): TaskStep => ({
  ...{ id: code, rev: 1, task: 't', position, code, outing: '1', role: 'Lead', action: 'use' },
  ...more,
});
const under = (of: string): Partial<TaskStep> => ({ contingency: true, ifFails: { step: of, how: 'stuck' } });
const rows: TaskRows = {
  outings: [outing('1', 1), outing('2', 2), outing('3', 3)],
  steps: [
    step('a', 1),
    step('b', 2),
    step('b1', 3, under('b')),
    step('b2', 4, under('b')),
    step('c', 5),
    step('d', 6),
    step('x', 7, { outing: '2' }),
  ],
};

function after(of: TaskRows, act: Act | null): string {
  if (act === null) return 'nothing';
  const steps = new Map(of.steps.map((row) => [row.id, row]));
  for (const one of act.proposals) if ('put' in one && one.table === 'steps') steps.set(one.put.id, one.put);
  return stepGroups(inOrder([...steps.values()]), of.outings)
    .map(({ outing: code, lines }) => `${code}: ${lines.map((line) => line.step.code).join(' ')}`.trim())
    .join(' | ');
}
const to = (ids: string[], landing: Landing): string =>
  after(rows, moveStepsTo(rows, { ids: new Set(ids), number: 1, where: 'elsewhere' }, landing));
const by = (ids: string[], way: -1 | 1): string =>
  after(rows, moveStepsBy(rows, { ids: new Set(ids), number: 1, where: 'on' }, way));

describe('steps put elsewhere', () => {
  test.each<[string[], Landing, string]>([
    [['a'], { side: 'after', step: 'c' }, '1: b b1 b2 c a d | 2: x | 3:'],
    [['d'], { side: 'before', step: 'a' }, '1: d a b b1 b2 c | 2: x | 3:'],
    // What is done if a step fails goes along, and nothing comes between.
    [['b'], { side: 'after', step: 'd' }, '1: a c d b b1 b2 | 2: x | 3:'],
    [['d'], { side: 'before', step: 'b1' }, '1: a b b1 b2 d c | 2: x | 3:'],
    // Several that stood apart come side by side, in their own order.
    [['d', 'a'], { side: 'after', step: 'b' }, '1: b b1 b2 a d c | 2: x | 3:'],
    [['b', 'b1', 'c'], { side: 'before', step: 'a' }, '1: b b1 b2 c a d | 2: x | 3:'],
    // On to another outing.
    [['b', 'd'], { side: 'before', step: 'x' }, '1: a c | 2: b b1 b2 d x | 3:'],
    [['x'], { side: 'head', outing: '1' }, '1: x a b b1 b2 c d | 2: | 3:'],
    [['a'], { side: 'head', outing: '3' }, '1: b b1 b2 c d | 2: x | 3: a'],
    // Among its like.
    [['b2'], { side: 'before', step: 'b1' }, '1: a b b2 b1 c d | 2: x | 3:'],
    [['b2'], { side: 'after', step: 'c' }, 'nothing'],
    [['b2'], { side: 'head', outing: '2' }, 'nothing'],
    // Where it is already.
    [['a'], { side: 'before', step: 'b' }, 'nothing'],
    [['b'], { side: 'after', step: 'b1' }, 'nothing'],
  ])('%j to %j', (ids, landing, wanted) => expect(to(ids, landing)).toBe(wanted));

  test.each<[string[], -1 | 1, string]>([
    [['a', 'b'], 1, '1: c a b b1 b2 d | 2: x | 3:'],
    [['c', 'd'], -1, '1: a c d b b1 b2 | 2: x | 3:'],
    // Those apart come together on the way.
    [['a', 'c'], 1, '1: b b1 b2 d a c | 2: x | 3:'],
    [['a', 'd'], 1, '1: b b1 b2 c a d | 2: x | 3:'],
    [['c', 'd'], 1, 'nothing'],
  ])('%j one place by %d', (ids, way, wanted) => expect(by(ids, way)).toBe(wanted));

  test('a number that is typed is the number it gets', () => {
    const numbered = rows.steps.map((one, index) => ({
      ...{ step: one, number: index + 1 },
      depth: one.contingency === true ? 1 : 0,
    }));
    const moved = (codes: string | string[], number: number): string => {
      const ids = [codes].flat();
      const landing = landingAtNumber(numbered, new Set(ids), number);
      return landing === null ? 'no such number' : to(ids, landing);
    };
    expect(moved(['a', 'd'], 4)).toBe('1: b b1 b2 a d c | 2: x | 3:');
    expect(moved(['a', 'c'], 5)).toBe('1: b b1 b2 d a c | 2: x | 3:');
    expect(moved('b', 4)).toBe('1: a c d b b1 b2 | 2: x | 3:');
    expect(moved('d', 2)).toBe('1: a d b b1 b2 c | 2: x | 3:');
    expect(moved('a', 5)).toBe('1: b b1 b2 c a d | 2: x | 3:');
    expect(moved('a', 8)).toBe('no such number');
  });

  test('no step is lost or doubled, and the rest keep their order, wherever they are put', () => {
    const codes = rows.steps.map(({ id }) => id);
    fc.assert(
      fc.property(fc.subarray(codes, { minLength: 1 }), fc.constantFrom(...codes), fc.boolean(), (ids, at, isAfter) => {
        const found = to(ids, { side: isAfter ? 'after' : 'before', step: at });
        if (found === 'nothing') return;
        const left = found.split(/[^a-z0-9]+/).filter((word) => codes.includes(word));
        expect(left.toSorted()).toEqual(codes.toSorted());
        const still = (list: readonly string[]) => list.filter((code) => !ids.includes(code) && !code.startsWith('b'));
        expect(still(left)).toEqual(still(codes));
      }),
      { numRuns: 200, seed: 7 },
    );
  });

  test('one act, named for what is moved', () => {
    const act = (ids: string[]): string | undefined =>
      moveStepsTo(rows, { ids: new Set(ids), number: 6, where: 'before step 1' }, { side: 'before', step: 'a' })?.title;
    expect(act(['d'])).toBe('Move step 6 before step 1');
    expect(act(['c', 'd'])).toBe('Move 2 steps before step 1');
  });
});
