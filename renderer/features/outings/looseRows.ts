import type { LedgerEntry, LedgerRow, Secured } from '../../../shared-types/outing.ts';

/** How many pieces are kept how, after one step. */
export type SecuredCounts = Record<Secured, number>;

const none: SecuredCounts = {
  home: 0,
  bagged: 0,
  held: 0,
  tethered: 0,
  'set-down': 0,
  fixed: 0,
  used: 0,
  loose: 0,
};

export function countsOf(rows: readonly LedgerRow[]): SecuredCounts {
  const counts = { ...none };
  for (const { secured, quantity } of rows) counts[secured] += quantity;
  return counts;
}

const order: Secured[] = ['loose', 'held', 'tethered', 'set-down', 'bagged', 'used', 'fixed', 'home'];

/** What is worth a line after a step: what is out of its bag or its hole, the loose ones first. */
export function outRows(rows: readonly LedgerRow[]): LedgerRow[] {
  return rows
    .filter(({ kind, secured, where }) => {
      const ofSite = kind === 'fastener' || kind === 'washer';
      if (secured === 'bagged') return ofSite;
      if (secured === 'fixed') return where.at === 'site' && where.loosened;
      return secured !== 'home' && secured !== 'used';
    })
    .toSorted((a, b) => order.indexOf(a.secured) - order.indexOf(b.secured));
}

/** What stands after each step of an outing, in the order in which they are done. */
export function doneEntries(entries: readonly LedgerEntry[], outing: string): (LedgerEntry & { step: string })[] {
  return entries.flatMap((entry) =>
    entry.outing === outing && entry.moment === 'done' && entry.step !== null ? [{ ...entry, step: entry.step }] : [],
  );
}

/** The step with the most that is loose, else the most that is out: what to look at first. */
export function worstStep(entries: readonly (LedgerEntry & { step: string })[]): string | null {
  let worst: { step: string; score: number } | null = null;
  for (const { step, rows } of entries) {
    const { loose } = countsOf(rows);
    const out = outRows(rows).reduce((sum, { quantity }) => sum + quantity, 0);
    const score = loose * 1e6 + out;
    if (worst === null || score > worst.score) worst = { step, score };
  }
  return worst?.step ?? null;
}
