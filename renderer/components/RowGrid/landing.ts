/** Where a key lands among rows of which some are headings. */

interface Press {
  /** Index of the row in hand; below 0 where there is none. */
  from: number;
  key: string;
  /** Rows that one Page key passes. */
  page: number;
}

/** @returns the index of the row to take in hand, or null where the key is none of the table's. */
export function landing(rows: readonly { kind: 'group' | 'row' }[], { from, key, page }: Press): number | null {
  const takeable = rows.flatMap((row, index) => (row.kind === 'row' ? [index] : []));
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
