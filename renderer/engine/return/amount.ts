/** So many pieces, and so many parts in all: a ratchet of three parts that lacks one is one piece with two parts. */
export interface Amount {
  pieces: number;
  parts: number;
}

export const none: Amount = { pieces: 0, parts: 0 };

/** Sum of two amounts, pieces and parts each by themselves. */
export function plus(one: Amount, other: Amount): Amount {
  return { pieces: one.pieces + other.pieces, parts: one.parts + other.parts };
}

/** What is left of an amount, never less than nothing. */
export function less(one: Amount, other: Amount): Amount {
  return { pieces: Math.max(0, one.pieces - other.pieces), parts: Math.max(0, one.parts - other.parts) };
}

/** Whether there is anything of it: a part alone counts. */
export function isSome({ pieces, parts }: Amount): boolean {
  return pieces > 0 || parts > 0;
}

/** An amount in words: "2 pieces", "1 piece with 2 of 3 parts", "1 part". */
export function amountText({ pieces, parts }: Amount, partsOfOne: number): string {
  const count = (amount: number, one: string): string => `${amount} ${amount === 1 ? one : `${one}s`}`;
  if (pieces === 0) return count(parts, 'part');
  if (parts === pieces * partsOfOne) return count(pieces, 'piece');
  return `${count(pieces, 'piece')} with ${parts} of ${pieces * partsOfOne} parts`;
}

/** Whether an amount is spoken of as one: "1 piece is", "1 part is", "2 pieces are". */
export function isOne({ pieces, parts }: Amount): boolean {
  return pieces === 1 || (pieces === 0 && parts === 1);
}
