import type { BagOuting } from '../../../shared-types/bag.ts';
import { recheckOuting } from '../bag/recheck.ts';
import type { Carried, ResolvedBag, ResolvedOuting, ResolvedPlan } from '../plan/resolved.ts';
import { atMost } from '../tolerance.ts';
import type { Standing } from './standing.ts';
import { withBag } from './withBag.ts';

/** Why a bag does not take a line: what it would hold of what it may, whose bag it is, or what would then be short. */
export type BagRefusal =
  | { kind: 'limit'; unit: 'kg' | 'L' | 'mm' | 'pieces' | 'tether points'; would: number; limit: number }
  | { kind: 'role'; role: string }
  | { kind: 'short'; faults: string[] };

/** What shall lie in another bag; all pieces of the line where none are counted. */
export interface BagMove {
  item: string;
  from: string;
  to: string;
  pieces?: number;
  standing: Standing;
}

/**
 * Whether a line, or some pieces of it, may lie in another bag of its outing.
 *
 * Limits are judged here, so that the refusal has its number; roles, what the steps then find in the bags of theirs,
 * and what the answer is to stand are counted by the routine that checks every answer again.
 *
 * @param answer - the outing as its lines lie now
 * @returns null where it may
 */
export function bagRefusal(
  plan: ResolvedPlan,
  answer: BagOuting,
  { item: itemId, from, to, pieces, standing }: BagMove,
): BagRefusal | null {
  const bag = plan.bags.get(to);
  const item = plan.carried.get(itemId);
  const outing = plan.outings.find(({ id }) => id === answer.id);
  const held = answer.items.find(({ id, bag: lies }) => id === itemId && lies === from);
  if (bag === undefined || item === undefined || outing === undefined || held === undefined) return null;
  const quantity = Math.min(pieces ?? held.quantity, held.quantity);
  const over = limitPassed(plan, answer, bag, { item, quantity });
  if (over !== null) return over;
  const faults = newFaults(
    plan,
    outing,
    { before: answer, after: withBag(plan, answer, { item: itemId, from, pieces: quantity }, to) },
    standing,
  );
  if (faults.length === 0) return null;
  if (bag.role !== null && !isUsedBy(plan, answer, item, bag.role)) return { kind: 'role', role: bag.role };
  return { kind: 'short', faults };
}

/** What the second count finds wrong with an answer that it did not find before. */
export function newFaults(
  plan: ResolvedPlan,
  outing: ResolvedOuting,
  { before, after }: { before: BagOuting; after: BagOuting },
  standing: Standing,
): string[] {
  const known = new Set(recheckOuting(plan, outing, before, standing));
  return recheckOuting(plan, outing, after, standing).filter((fault) => !known.has(fault));
}

function limitPassed(
  plan: ResolvedPlan,
  answer: BagOuting,
  bag: ResolvedBag,
  coming: { item: Carried; quantity: number },
): BagRefusal | null {
  const lines = answer.items.flatMap(({ id, bag: lies, quantity }) => {
    const item = plan.carried.get(id);
    return lies === bag.id && item !== undefined ? [{ item, quantity }] : [];
  });
  const sum = (each: (item: Carried) => number): number =>
    [...lines, coming].reduce((total, { item, quantity }) => total + quantity * each(item), 0);
  const limits = [
    { unit: 'kg' as const, would: sum(({ massKg }) => massKg), limit: bag.massMaxKg },
    { unit: 'L' as const, would: sum(({ volumeL }) => volumeL ?? 0), limit: bag.volumeMaxL },
    { unit: 'pieces' as const, would: sum(() => 1), limit: bag.itemsMax },
    { unit: 'tether points' as const, would: sum(({ tethers }) => tethers), limit: bag.tetherPoints },
    { unit: 'mm' as const, would: coming.item.sizeMm ?? 0, limit: bag.sizeMaxMm },
  ];
  const passed = limits.find(({ would, limit }) => limit !== null && !atMost(would, limit));
  return passed === undefined || passed.limit === null
    ? null
    : { kind: 'limit', unit: passed.unit, would: passed.would, limit: passed.limit };
}

/** A bag with a role holds what some step of that role uses. */
function isUsedBy(plan: ResolvedPlan, answer: BagOuting, item: Carried, role: string): boolean {
  const chosen = new Map(answer.steps.map(({ id, stack, hold }) => [id, [...stack, ...(hold ?? [])]]));
  return plan.steps
    .filter((step) => step.outing === answer.id && step.role === role)
    .some((step) =>
      item.kind === 'gear'
        ? [...step.gear, ...step.moves.filter(({ from }) => from === 'bag')].some(({ id }) => id === item.id)
        : (chosen.get(step.id) ?? []).includes(item.id),
    );
}
