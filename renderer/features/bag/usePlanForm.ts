import { useState } from 'react';
import type { Asked } from './asked.ts';
import { draftOf, withWish } from '../bagPlan/planDraft.ts';
import type { PlanDraft, Wish, WishKind } from '../bagPlan/planDraft.ts';

export interface PlanForm {
  draft: PlanDraft;
  isOpen: boolean;
  open: () => void;
  close: () => void;
  setDraft: (draft: PlanDraft) => void;
  /** What is asked of an item when it is planned again. */
  wishedOf: (item: string) => WishKind[];
  /** Asks it of the item, or no longer; the form opens with it. */
  toggleWish: (item: string, kind: WishKind, packed: number) => void;
}

/** The form for planning again, which the line in hand may write into as well. */
export function usePlanForm(last: Asked, taskText: string): PlanForm {
  // What is being written belongs to what was asked last of this task.
  const of = JSON.stringify(last) + taskText.length;
  const [state, setState] = useState<{ of: string; draft: PlanDraft; isOpen: boolean } | null>(null);
  const { draft, isOpen } = state?.of === of ? state : { draft: draftOf(last), isOpen: false };
  const set = (change: Partial<{ draft: PlanDraft; isOpen: boolean }>): void =>
    setState({ of, draft, isOpen, ...change });
  return {
    ...{ draft, isOpen },
    open: () => set({ isOpen: true }),
    close: () => setState(null),
    setDraft: (next) => set({ draft: next, isOpen: true }),
    wishedOf: (item) => [
      ...new Set(draft.wishes.filter(({ id, outing }) => id === item && outing === null).map(({ kind }) => kind)),
    ],
    toggleWish(item, kind, packed) {
      const wish: Wish = { kind, id: item, quantity: kind === 'keep' ? packed : 1, outing: null };
      const there = draft.wishes.some((one) => one.id === item && one.kind === kind && one.outing === null);
      // Wanted and forbidden are opposites: the later one holds.
      const others = draft.wishes.filter(
        (one) => one.id !== item || one.outing !== null || (one.kind === 'forbid') === (kind === 'forbid'),
      );
      const wishes = there
        ? draft.wishes.filter((one) => one.id !== item || one.kind !== kind || one.outing !== null)
        : withWish(others, wish);
      set({ draft: { ...draft, wishes }, isOpen: true });
    },
  };
}
