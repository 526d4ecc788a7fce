/** So many pieces with so many parts in all. */
export interface Amount {
  pieces: number;
  parts: number;
}

export const nothing: Amount = { pieces: 0, parts: 0 };

/** Both together. */
export function added(one: Amount, other: Amount): Amount {
  return { pieces: one.pieces + other.pieces, parts: one.parts + other.parts };
}

/** Whether two say the same number of pieces and parts. */
export function sameAmount(one: Amount, other: Amount): boolean {
  return one.pieces === other.pieces && one.parts === other.parts;
}

/**
 * An amount in words: "3 pieces"; of a thing of several parts whose parts are not all there, "1 piece with 2 of 3 parts".
 *
 * @param partsEach - of how many parts one piece consists
 * @returns the words, without a full stop
 */
export function amountText({ pieces, parts }: Amount, partsEach: number): string {
  const whole = pieces * partsEach;
  const said = pieces === 1 ? '1 piece' : `${pieces} pieces`;
  if (parts === whole) return said;
  if (pieces === 0) return parts === 1 ? '1 part' : `${parts} parts`;
  return `${said} with ${parts} of ${whole} parts`;
}
