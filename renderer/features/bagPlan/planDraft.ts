import type { BagWishes, ItemWish, Minimised, Tolerance } from '../../../shared-types/bag.ts';
import type { FieldError } from '../../components/FieldErrors/FieldErrors.tsx';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import type { Asked } from '../bag/asked.ts';
import { itemName } from '../steps/words.ts';
import { timeLimitFault, timeLimitS } from './timeLimit.ts';

export type WishKind = keyof BagWishes;

/** What shall become of an item; null of `outing` stands for every one. */
export interface Wish {
  kind: WishKind;
  id: string;
  quantity: number;
  outing: string | null;
}

/** A wish being written. */
export interface WishDraft {
  kind: WishKind;
  item: string;
  /** As typed. */
  quantity: string;
  outing: string | null;
}

export interface PlanDraft {
  minimised: Minimised;
  tolerance: Tolerance;
  wishes: readonly Wish[];
  writing: WishDraft;
  /** As typed. */
  timeLimit: string;
}

export const noWish: WishDraft = { kind: 'keep', item: '', quantity: '1', outing: null };

export function draftOf({ minimised, tolerance, wishes, timeLimitS: limitS }: Asked): PlanDraft {
  const wish = (kind: WishKind, { id, quantity, outing }: Partial<ItemWish> & { id: string }): Wish => ({
    ...{ kind, id },
    quantity: quantity ?? 1,
    outing: outing ?? null,
  });
  return {
    ...{ minimised, tolerance },
    wishes: [
      ...wishes.keep.map((one) => wish('keep', one)),
      ...wishes.forbid.map((one) => wish('forbid', one)),
      ...wishes.spares.map((one) => wish('spares', one)),
    ],
    writing: noWish,
    timeLimit: limitS?.toString() ?? '',
  };
}

export function askedOf({ minimised, tolerance, wishes, timeLimit }: PlanDraft): Asked {
  const of = (kind: WishKind): ItemWish[] =>
    wishes.flatMap(({ kind: own, id, quantity, outing }) =>
      own === kind ? [{ id, quantity, ...(outing === null ? {} : { outing }) }] : [],
    );
  return {
    ...{ minimised, tolerance },
    wishes: {
      keep: of('keep'),
      forbid: of('forbid').map(({ quantity: _quantity, ...rest }) => rest),
      spares: of('spares'),
    },
    timeLimitS: timeLimitS(timeLimit),
  };
}

/** The wishes with one more; one of the same kind, item and outing gives way to it. */
export function withWish(wishes: readonly Wish[], wish: Wish): Wish[] {
  return [...wishes.filter((one) => !isSame(one, wish)), wish];
}

const isSame = (a: Omit<Wish, 'quantity'>, b: Omit<Wish, 'quantity'>): boolean =>
  a.kind === b.kind && a.id === b.id && a.outing === b.outing;

const meet = (a: Wish, b: Wish): boolean => a.outing === null || b.outing === null || a.outing === b.outing;

export const itemField = 'wish-item';
export const quantityField = 'wish-quantity';
export const timeField = 'time-limit';
export const wishField = (index: number): string => `wish-${index}`;

/** What keeps a wish being written from being added. */
export function wishFaults(plan: ResolvedPlan, { kind, item: typed, quantity, outing }: WishDraft): FieldError[] {
  const id = typed.trim();
  const item = plan.carried.get(id);
  if (id === '')
    return [{ field: itemField, message: 'Item: type its code, or words of its name, and take one that is found.' }];
  if (item === undefined)
    return [
      { field: itemField, message: `Item "${id}": not in this task’s stock. Take one that is found by code or name.` },
    ];
  const faults: FieldError[] = [];
  if (kind === 'spares' && item.kind !== 'gear')
    faults.push({
      field: itemField,
      message: `Item "${id}": spares are of gear, and this is a tool piece. Keep 2 of it always instead.`,
    });
  if (kind === 'forbid') return faults;
  const text = quantity.trim();
  if (!/^[1-9]\d{0,5}$/.test(text))
    faults.push({ field: quantityField, message: `Pieces "${text}": write a whole number from 1 on, as 1 or 12.` });
  else if (Number(text) > item.onHand)
    faults.push({
      field: quantityField,
      message: `Pieces "${text}": ${item.onHand} of ${id} on hand, ${Number(text) - item.onHand} too few.`,
    });
  if (outing !== null && !plan.outings.some((one) => one.id === outing))
    faults.push({ field: itemField, message: `Outing "${outing}": no outing of this task is called so.` });
  return faults;
}

/** What keeps the whole from being asked. */
export function planFaults(plan: ResolvedPlan, draft: PlanDraft): FieldError[] {
  const faults: FieldError[] = draft.wishes.flatMap((wish, index) => {
    const message = standingFault(plan, draft.wishes, wish, index);
    return message === null ? [] : [{ field: wishField(index), message }];
  });
  const { item } = draft.writing;
  if (item.trim() !== '')
    faults.push({
      field: itemField,
      message: `Item "${item.trim()}": typed and not added yet. Add it, or leave the field empty.`,
    });
  const time = timeLimitFault(draft.timeLimit);
  if (time !== null) faults.push({ field: timeField, message: time });
  return faults;
}

/** Why a wish cannot stand: its item or outing is gone, or another wish says the opposite. */
export function standingFault(plan: ResolvedPlan, wishes: readonly Wish[], wish: Wish, index: number): string | null {
  const { id, kind, outing } = wish;
  if (!plan.carried.has(id)) return `${id} is no longer in this task’s stock: remove it.`;
  if (outing !== null && !plan.outings.some((one) => one.id === outing))
    return `${id}: outing ${outing} is no longer one of this task’s: remove it.`;
  const against = wishes.findIndex(
    (one) => one.id === id && meet(one, wish) && (kind === 'forbid') !== (one.kind === 'forbid'),
  );
  return against < 0 || against > index
    ? null
    : `${itemName(plan, id)} (${id}) is both wanted and forbidden: remove one of the two.`;
}

/** A wish in plain words. */
export function wishText(plan: ResolvedPlan, { kind, id, quantity, outing }: Wish): string {
  const name = itemName(plan, id);
  const what = name.includes(id) ? name : `${name} (${id})`;
  const where =
    outing === null ? '' : ` on ${plan.outings.find((one) => one.id === outing)?.name ?? `outing ${outing}`}`;
  if (kind === 'forbid') return `Forbidden${where}: ${what}`;
  if (kind === 'keep') return `Kept always${where}: ${quantity} × ${what}`;
  return `Spare${where}: ${quantity} × ${what} beyond the need`;
}

/** Outings that have one bag alone: no plan stands the loss of it. */
export function oneBagOutings(plan: ResolvedPlan): string[] {
  return plan.outings.filter(({ bags }) => bags.length < 2).map(({ name }) => name);
}
