import type { Row, Term } from '../model/integerProgram.ts';
import { lyingTerms } from '../model/lying.ts';
import type { CoverTable } from '../search/coverTable.ts';
import type { Unserving } from './unserving.ts';
import { piecesOf } from './unserving.ts';
import type { Master } from './master.ts';
import { flagColumn } from './master.ts';
import type { Unmet } from './unmet.ts';

/**
 * The cut of a bag B that does not serve a group: some item lies there more often than in B, Σ_p [n(p) > B(p)] ≥ 1.
 *
 * Where one piece of an item is lost, one more of it must lie there; and where no piece beyond B is in B at all, two of
 * them must, since one may be lost whichever it is.
 *
 * @returns the row for the master, in whose columns it is written
 */
export function unservingRow(master: Master, table: CoverTable, { tables, of, lost }: Unmet, bag: Unserving): Row {
  const beyond = piecesOf(tables).filter((piece) => (bag[piece] ?? 0) < (table.most[piece] ?? 0));
  const lostAt = lost === null ? -1 : (table.number.get(lost) ?? -1);
  const twice = lost !== null && beyond.every((piece) => (bag[piece] ?? 0) <= 0);
  const terms = beyond.flatMap((piece): Term[] => {
    const lying = lyingTerms(master.model, table.ids[piece] ?? '', of);
    if (twice) return lying;
    const more = (bag[piece] ?? 0) + (piece === lostAt ? 2 : 1);
    return more === 1 ? lying : [[flagColumn(master, lying, more), 1]];
  });
  return { terms, lower: twice ? 2 : 1, upper: Infinity };
}
