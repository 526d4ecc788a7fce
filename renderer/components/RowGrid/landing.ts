/** Where a key lands among rows of which some are headings. */

interface Press {
  /** Index of the row in hand; below 0 where there is none. */
  from: number;
  key: string;
  /** Rows that one Page key passes. */
  page: number;
}

/**
 * @param takeable - indices of the rows that can be taken in hand, rising
 * @returns the index of the row to take in hand, or null where the key is none of the table's
 */
export function landing(takeable: readonly number[], { from, key, page }: Press): number | null {
  const at = takeable.indexOf(from);
  const last = takeable.length - 1;
  const to: Record<string, number> = {
    ArrowDown: at + 1,
    ArrowUp: at - 1,
    PageDown: at + page,
    PageUp: at - page,
    Home: 0,
    End: last,
  };
  const wanted = to[key];
  if (wanted === undefined || last < 0) return null;
  return takeable[Math.min(Math.max(wanted, 0), last)] ?? null;
}
