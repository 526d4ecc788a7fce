import type { BagWishes, Tolerance } from '../../../../../shared-types/bag.ts';
import type { EasedLimit, StepConflict } from '../../../../../shared-types/bagReasons.ts';
import type { ResolvedGear, ResolvedPlan, ResolvedStep } from '../../../plan/resolved.ts';
import { conflictSentence } from './sentences.ts';

/**
 * Steps of several outings which use up more of some gear together than there is, though each outing has enough by
 * itself: for each such gear the first of them that go beyond the stock, less those without which they still do.
 * Spares count before the steps.
 */
export function usedUpBeyondStock(plan: ResolvedPlan, tolerance: Tolerance, wishes: BagWishes): StepConflict[] {
  return [...plan.gear.values()].flatMap((item): StepConflict[] => {
    if (!item.consumed) return [];
    const users = plan.steps
      .map((step) => ({ step, quantity: usedBy(step, item.id) }))
      .filter((use) => use.quantity > 0);
    const byOuting = plan.outings.map(({ id }) => {
      const own = users.filter(({ step }) => step.outing === id);
      return { own, spares: sparesOn(wishes, item.id, id, own.length > 0) };
    });
    if (byOuting.some(({ own, spares }) => total(own) + spares > item.onHand)) return [];
    const spares = byOuting.reduce((sum, one) => sum + one.spares, 0);
    return conflictOf(plan, { item, users: byOuting.flatMap(({ own }) => own), spares, tolerance });
  });
}

interface Use {
  step: ResolvedStep;
  quantity: number;
}

function total(uses: readonly Use[]): number {
  return uses.reduce((sum, { quantity }) => sum + quantity, 0);
}

function usedBy(step: ResolvedStep, id: string): number {
  const taken = [...step.gear, ...step.moves.filter(({ from }) => from === 'bag')];
  return taken.reduce((sum, one) => sum + (one.id === id ? one.quantity : 0), 0);
}

function sparesOn({ spares }: BagWishes, id: string, outing: string, needed: boolean): number {
  const goes = spares.filter((wish) => wish.id === id && (wish.outing === undefined ? needed : wish.outing === outing));
  return goes.reduce((sum, { quantity }) => sum + quantity, 0);
}

function conflictOf(
  plan: ResolvedPlan,
  { item, users, spares, tolerance }: { item: ResolvedGear; users: Use[]; spares: number; tolerance: Tolerance },
): StepConflict[] {
  const beyond = (uses: readonly Use[]): boolean => total(uses) + spares > item.onHand;
  if (!beyond(users)) return [];
  let core = users.slice(0, users.findIndex((_, at) => beyond(users.slice(0, at + 1))) + 1);
  for (const use of core) {
    const fewer = core.filter((other) => other !== use);
    if (beyond(fewer)) core = fewer;
  }
  const outing = core.at(-1)?.step.outing ?? '';
  const needs = total(core) + spares;
  const limit = { kind: 'stock', id: item.id } as const;
  const eased: EasedLimit[] = [{ outing, limit, allowed: item.onHand, used: null, unit: 'pieces', needs, least: true }];
  const found = { outing, steps: core.map(({ step }) => step.id), eased, easedTogether: [] };
  return [{ ...found, tolerance, reason: conflictSentence(plan, found) }];
}
