import type { Amount } from '../packing/amount.ts';

export { added, amountText, nothing } from '../packing/amount.ts';
export type { Amount } from '../packing/amount.ts';

/** What is left of an amount, never less than nothing. */
export function less(one: Amount, other: Amount): Amount {
  return { pieces: Math.max(0, one.pieces - other.pieces), parts: Math.max(0, one.parts - other.parts) };
}

/** Whether there is anything of it: a part alone counts. */
export function isSome({ pieces, parts }: Amount): boolean {
  return pieces > 0 || parts > 0;
}

/** Whether an amount is spoken of as one: "1 piece is", "1 part is", "2 pieces are". */
export function isOne({ pieces, parts }: Amount): boolean {
  return pieces === 1 || (pieces === 0 && parts === 1);
}
