import { RefusedError } from '../../engine/errors.ts';

const piece = 500;

/**
 * Every row of a judged table, asked for piece by piece.
 *
 * @throws RefusedError where fewer come than there are: a part of a table is never taken for all of it
 */
export async function allRows<Row>(
  count: number,
  read: (from: number, count: number) => Promise<readonly Row[]>,
): Promise<Row[]> {
  const rows: Row[] = [];
  for (let from = 0; from < count; from += piece) {
    const due = Math.min(piece, count - from);
    const came = await read(from, due);
    if (came.length !== due) {
      const message = `Only ${rows.length + came.length} of ${count} rows could be read: judging them was ended meanwhile.`;
      throw new RefusedError({ code: 'not-available', message, value: rows.length + came.length });
    }
    for (const row of came) rows.push(row);
  }
  return rows;
}
