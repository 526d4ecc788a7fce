import { describe, expect, test } from 'vitest';
import type { TaskOuting, TaskStep } from '../../shared-types/records/task.ts';
import { inOrder } from '../../renderer/engine/records/inOrder.ts';
import { takeOrder, takeSwap } from '../../renderer/features/outings/proposalActs.ts';
import type { Act } from '../../renderer/store/store.ts';

const outing: TaskOuting = {
  ...{ id: 'o', rev: 1, task: 't', position: 1, code: '1', roles: ['Lead', 'Second'], bags: [] },
};
const step = (code: string, position: number, of = '1'): TaskStep => ({
  ...{ id: `k-${code}`, rev: 1, task: 't', position, code, outing: of, role: 'Lead', action: 'use' },
});

function after(steps: readonly TaskStep[], act: Act): TaskStep[] {
  const put = new Map(act.proposals.flatMap((one) => ('put' in one ? [[one.put.id, one.put as TaskStep]] : [])));
  return inOrder(steps.map((row) => put.get(row.id) ?? row));
}

describe('taking what is proposed', () => {
  test('an order changes places among its own steps; others stay where they stand', () => {
    const steps = [step('a', 1), step('x', 2, '2'), step('b', 3), step('open', 4), step('c', 5)];
    const act = takeOrder({ steps, outings: [outing] }, outing, { order: ['c', 'a', 'b'] });
    expect(after(steps, act).map(({ code }) => code)).toEqual(['c', 'x', 'a', 'open', 'b']);
    expect(act.proposals).toHaveLength(3);
  });

  test('an order is kept where two steps stand at one position', () => {
    const steps = [step('a', 1), step('b', 1), step('c', 1)];
    const act = takeOrder({ steps, outings: [outing] }, outing, { order: ['b', 'c', 'a'] });
    expect(after(steps, act).map(({ code }) => code)).toEqual(['b', 'c', 'a']);
  });

  test('a swap gives only the steps named to another role', () => {
    const steps = [step('a', 1), step('b', 2)];
    const act = takeSwap({ steps, outings: [outing] }, outing, {
      changes: [{ step: 'b', from: 'Lead', to: 'Second' }],
    });
    expect(after(steps, act).map(({ role }) => role)).toEqual(['Lead', 'Second']);
  });
});
