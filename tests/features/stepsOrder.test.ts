import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { TaskOuting, TaskStep } from '../../shared-types/records/task.ts';
import { inOrder } from '../../renderer/engine/records/inOrder.ts';
import { firstCode, freshCode } from '../../renderer/features/task/freshCode.ts';
import { positionsBetween, positionsFor, renumbered } from '../../renderer/features/task/order.ts';
import { addStep, copyStep, editStep, moveStep, removeStep } from '../../renderer/features/steps/stepActs.ts';
import type { TaskRows } from '../../renderer/features/steps/stepActs.ts';
import { stepGroups } from '../../renderer/features/steps/stepLines.ts';
import type { Act } from '../../renderer/store/store.ts';

const outing = (code: string, position: number): TaskOuting => ({
  ...{ id: `o-${code}`, rev: 1, task: 't', position, code, roles: ['Lead', 'Second'], bags: [] },
});
const step = (code: string, position: number, more: Partial<TaskStep> = {}): TaskStep => ({
  ...{ id: `k-${code}`, rev: 1, task: 't', position, code, outing: '1', role: 'Lead', action: 'use' },
  ...more,
});
const ifFails = (of: string): Partial<TaskStep> => ({ contingency: true, ifFails: { step: of, how: 'stuck' } });

/** The rows once an act is kept. */
function done(rows: TaskRows, act: Act): TaskRows {
  const steps = new Map(rows.steps.map((row) => [row.id, row]));
  for (const proposal of act.proposals) {
    if ('remove' in proposal) steps.delete(proposal.remove.id);
    else if (proposal.table === 'steps') steps.set(proposal.put.id, proposal.put);
  }
  return { outings: rows.outings, steps: inOrder([...steps.values()]) };
}

/** As the sheet lists them: codes by outing, one that stands under another with a dot for each level. */
const listed = ({ steps, outings }: TaskRows): string =>
  stepGroups(steps, outings)
    .map(({ outing: of, lines }) => `${of}: ${lines.map(({ step: s, depth }) => '.'.repeat(depth) + s.code).join(' ')}`)
    .join(' | ');

const codeOf = (rows: TaskRows, code: string): TaskStep => {
  const found = rows.steps.find((one) => one.code === code);
  if (found === undefined) throw new Error(`no step ${code}`);
  return found;
};

const two: TaskRows = {
  outings: [outing('1', 1), outing('2', 2)],
  steps: [
    step('a', 1),
    step('b', 2),
    step('b1', 3, ifFails('b')),
    step('c', 4),
    step('x', 5, { outing: '2' }),
    step('y', 6, { outing: '2' }),
  ],
};

describe('positions', () => {
  test('there is room between two, or none is given', () => {
    expect(positionsBetween(1, 2, 1)).toEqual([1.5]);
    expect(positionsBetween(null, null, 2)).toEqual([1024, 2048]);
    expect(positionsBetween(10, null, 1)).toEqual([1034]);
    expect(positionsBetween(null, 10, 2)).toEqual([-2038, -1014]);
    expect(positionsBetween(3, 3, 1)).toBeNull();
    expect(positionsBetween(4, 3, 1)).toBeNull();
    expect(positionsBetween(1, 1 + 2 ** -30, 1)).toBeNull();
  });

  test('numbering anew changes only what stands elsewhere', () => {
    expect(
      renumbered([
        { id: 'a', position: 1024 },
        { id: 'b', position: 1500 },
      ]),
    ).toEqual(new Map([['b', 2048]]));
  });

  test('any number of moves leaves the order that a plain list would have, with positions that are all different', () => {
    const moves = fc.array(fc.tuple(fc.nat(11), fc.nat(11)), { minLength: 1, maxLength: 300 });
    fc.assert(
      fc.property(moves, (asked) => {
        let rows = Array.from({ length: 12 }, (_, at) => ({ id: `r${at}`, code: `${at}`, position: 0 }));
        for (const [from, to] of asked) {
          const order = inOrder(rows);
          const [moved] = order.splice(from, 1);
          if (moved === undefined) continue;
          order.splice(to, 0, moved);
          const places = positionsFor([order], new Set([moved.id]));
          rows = rows.map((row) => ({ ...row, position: places.get(row.id) ?? row.position }));
          expect(inOrder(rows).map(({ id }) => id)).toEqual(order.map(({ id }) => id));
          expect(new Set(rows.map(({ position }) => position)).size).toBe(12);
        }
      }),
      { seed: 20261125, numRuns: 60 },
    );
  });
});

describe('codes', () => {
  test('count on from the one before, past those that are taken', () => {
    expect(freshCode('s9', new Set(['s10']))).toBe('s11');
    expect(freshCode('S-07', new Set())).toBe('S-08');
    expect(freshCode('cap', new Set(['cap-2']))).toBe('cap-3');
    expect(firstCode('s', new Set())).toBe('s1');
    expect(firstCode('s', new Set(['s1', 's2']))).toBe('s3');
  });
});

describe('the order of steps', () => {
  test('what is done if a step fails stands under it, wherever its position is', () => {
    const rows = {
      ...two,
      steps: inOrder([...two.steps, step('late', 99, ifFails('a')), step('later', 100, ifFails('late'))]),
    };
    expect(listed(rows)).toBe('1: a .late ..later b .b1 c | 2: x y');
  });

  test('one for a step of another outing, for none that is there, or for itself by a circle stands on its own', () => {
    const rows = {
      ...two,
      steps: [
        step('p', 1, ifFails('x')),
        step('q', 2, ifFails('gone')),
        step('r', 3, ifFails('s')),
        step('s', 4, ifFails('r')),
      ],
    };
    expect(listed(rows)).toBe('1: p q r .s | 2: ');
  });

  test('a step of an outing that is not there is listed, never lost', () => {
    expect(listed({ ...two, steps: [step('a', 1, { outing: 'gone' })] })).toBe('1:  | 2:  | gone: a');
  });

  test('a move passes the neighbour with what stands under it, and changes one record', () => {
    const down = moveStep(two, codeOf(two, 'a'), 1, 1);
    expect(down?.title).toBe('Move step 1 down');
    expect(down?.proposals).toHaveLength(1);
    expect(listed(done(two, down as Act))).toBe('1: b .b1 a c | 2: x y');
    const up = moveStep(two, codeOf(two, 'b'), -1, 2);
    expect(up?.title).toBe('Move step 2 up');
    expect(listed(done(two, up as Act))).toBe('1: b .b1 a c | 2: x y');
  });

  test('first and last of their outing, and an only child, stay', () => {
    expect(moveStep(two, codeOf(two, 'a'), -1, 1)).toBeNull();
    expect(moveStep(two, codeOf(two, 'c'), 1, 4)).toBeNull();
    expect(moveStep(two, codeOf(two, 'b1'), 1, 3)).toBeNull();
    expect(moveStep(two, codeOf(two, 'b1'), -1, 3)).toBeNull();
  });

  test('a new step stands after the one in hand, else at the end of its outing, before those of the next', () => {
    const added = step('n', 0);
    const after = done(two, addStep(two, added, 'k-b'));
    expect(listed(after)).toBe('1: a b .b1 n c | 2: x y');
    const end = done(two, addStep(two, added, null));
    expect(listed(end)).toBe('1: a b .b1 c n | 2: x y');
    expect(end.steps.map(({ code }) => code)).toEqual(['a', 'b', 'b1', 'c', 'n', 'x', 'y']);
    expect(listed(done(two, addStep(two, { ...added, outing: '2' }, 'k-b')))).toBe('1: a b .b1 c | 2: x y n');
    expect(listed(done(two, addStep(two, { ...added, ...ifFails('a') }, 'k-c')))).toBe('1: a .n b .b1 c | 2: x y');
  });

  test('into a task without a step the first comes at all', () => {
    const rows: TaskRows = { outings: [outing('1', 1)], steps: [] };
    expect(listed(done(rows, addStep(rows, step('n', 0), null)))).toBe('1: n');
  });

  test('on another outing a step goes to the end, with what stands under it', () => {
    const before = codeOf(two, 'b');
    const act = editStep(two, before, { ...before, outing: '2' }, 2);
    expect(act.title).toBe('Edit step 2');
    expect(listed(done(two, act))).toBe('1: a c | 2: x y b .b1');
  });

  test('a new code is followed by what names the step', () => {
    const before = codeOf(two, 'b');
    const rows = done(two, editStep(two, before, { ...before, code: 'B' }, 2));
    expect(listed(rows)).toBe('1: a B .b1 c | 2: x y');
    expect(codeOf(rows, 'b1').ifFails?.step).toBe('B');
  });

  test('a copy has its own key and code and stands after the first', () => {
    const { act, copy } = copyStep(two, codeOf(two, 'b'), { id: 'new', number: 2 });
    expect(act.title).toBe('Copy step 2');
    expect(copy).toMatchObject({ id: 'new', rev: 0, code: 'b-2' });
    expect(listed(done(two, act))).toBe('1: a b .b1 b-2 c | 2: x y');
  });

  test('with a step goes what is done if it fails', () => {
    const act = removeStep(two, codeOf(two, 'b'), 2);
    expect(act.title).toBe('Remove step 2');
    expect(listed(done(two, act))).toBe('1: a c | 2: x y');
  });

  test('any number of moves keeps each step on its outing and under its own', () => {
    const asked = fc.array(fc.tuple(fc.nat(5), fc.boolean()), { minLength: 1, maxLength: 80 });
    fc.assert(
      fc.property(asked, (moves) => {
        let rows = two;
        for (const [at, down] of moves) {
          const moved = rows.steps[at];
          const act = moved === undefined ? null : moveStep(rows, moved, down ? 1 : -1, 1);
          if (act !== null) rows = done(rows, act);
        }
        const [first = '', second = ''] = listed(rows).split(' | ');
        expect(first.slice(3).split(' ').toSorted()).toEqual(['.b1', 'a', 'b', 'c']);
        expect(first).toContain('b .b1');
        expect(second.slice(3).split(' ').toSorted()).toEqual(['x', 'y']);
      }),
      { seed: 20261125, numRuns: 100 },
    );
  });
});
