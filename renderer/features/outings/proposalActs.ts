import type { OrderProposal, SwapProposal } from '../../../shared-types/outing.ts';
import type { TaskOuting } from '../../../shared-types/records/task.ts';
import type { Act, Proposal } from '../../store/store.ts';
import { renumbered } from '../task/order.ts';
import { outingCalled, stepsOn } from './outingActs.ts';
import type { OutingRows } from './outingActs.ts';

/**
 * Puts an outing's steps in a proposed order. The steps of the order take each other's places; those that it does not name,
 * and those of other outings, stay where they are.
 */
export function takeOrder(rows: OutingRows, outing: TaskOuting, { order }: Pick<OrderProposal, 'order'>): Act {
  const own = stepsOn(rows, outing);
  const named = new Set(order);
  const byCode = new Map(own.map((step) => [step.code, step]));
  const wanted = order.flatMap((code) => byCode.get(code) ?? []);
  let next = 0;
  const sequence = rows.steps.map((step) =>
    step.outing === outing.code && named.has(step.code) ? (wanted[next++] ?? step) : step,
  );
  const rising = rows.steps.every((step, at) => at === 0 || (rows.steps[at - 1]?.position ?? 0) < step.position);
  const positions = rising
    ? new Map(sequence.map(({ id }, at) => [id, rows.steps[at]?.position ?? 0]))
    : renumbered(sequence);
  const proposals = sequence.flatMap((step): Proposal[] => {
    const position = positions.get(step.id) ?? step.position;
    return position === step.position ? [] : [{ table: 'steps', put: { ...step, position } }];
  });
  return { action: 'order-steps', title: `Take the proposed order of ${outingCalled(outing)}`, proposals };
}

/** Gives steps to other roles, as proposed. */
export function takeSwap(rows: OutingRows, outing: TaskOuting, { changes }: Pick<SwapProposal, 'changes'>): Act {
  const roles = new Map(changes.map(({ step, to }) => [step, to]));
  const proposals = stepsOn(rows, outing).flatMap((step): Proposal[] => {
    const role = roles.get(step.code);
    return role === undefined || role === step.role ? [] : [{ table: 'steps', put: { ...step, role } }];
  });
  return { action: 'swap-roles', title: `Take the proposed roles of ${outingCalled(outing)}`, proposals };
}
