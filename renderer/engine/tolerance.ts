/** Relative slack within which two sides of a limit count as equal: the headless contract's, in every command. */
export const limitTolerance = 1e-9;

/** Whether `value` is no less than `limit`, equality within the tolerance included. */
export function atLeast(value: number, limit: number): boolean {
  return value >= limit - limitTolerance * Math.max(Math.abs(value), Math.abs(limit));
}

/** Whether `value` is no more than `limit`, equality within the tolerance included. */
export function atMost(value: number, limit: number): boolean {
  return atLeast(limit, value);
}
