import type { Comparison } from '../../engine/frozen/index.ts';
import { comparisonRows } from './comparisonRows.ts';
import type { ComparisonRow, Names } from './comparisonRows.ts';

export interface ComparisonTableProps {
  found: Comparison;
  names: Names;
  /** What the two are called. */
  heads: readonly [string, string];
}

/** Part by part what is not the same. Of long tables the whole is in the file. */
export function ComparisonTable({ found, names, heads }: ComparisonTableProps) {
  const rows = comparisonRows(found, names);
  const parts = [...new Set(rows.map(({ part }) => part))];
  return (
    <>
      {parts.map((part) => (
        <PartTable key={part} part={part} rows={rows.filter((row) => row.part === part)} heads={heads} />
      ))}
    </>
  );
}

const shownMost = 500;

function PartTable({
  part,
  rows,
  heads,
}: {
  part: string;
  rows: readonly ComparisonRow[];
  heads: readonly [string, string];
}) {
  const shown = rows.slice(0, shownMost);
  // What one thing says otherwise stands under its name once.
  const spans = shown.map((row, at) => (at > 0 && isSame(row, shown[at - 1]) ? 0 : runFrom(shown, at)));
  const whole = rows.every(({ code, what }) => code === '' && what === '');
  return (
    <section aria-label={part}>
      <h3>
        <bdi>{part}</bdi>
      </h3>
      <div className="bw-task-scroll" role="region" aria-label={`${part} that differ`} tabIndex={0}>
        <table className="bw-task-table bw-rev-compared">
          <thead>
            <tr>
              {whole ? null : <th scope="col">What</th>}
              <th scope="col">How</th>
              <th scope="col">{heads[0]}</th>
              <th scope="col">{heads[1]}</th>
            </tr>
          </thead>
          <tbody>
            {shown.map((row, at) => (
              <tr key={at}>
                {whole || spans[at] === 0 ? null : (
                  <th scope="rowgroup" rowSpan={spans[at]}>
                    <bdi>{row.what === '' ? row.code : row.what}</bdi>
                    {row.what === '' || row.what === row.code ? null : (
                      <div className="bw-code bw-second bw-rev-code">{row.code}</div>
                    )}
                  </th>
                )}
                <td>{row.how}</td>
                <td dir="auto">{row.was}</td>
                <td dir="auto">{row.is}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {rows.length > shownMost ? (
        <p className="bw-second">and {rows.length - shownMost} more, all of them in the file and in print</p>
      ) : null}
    </section>
  );
}

function isSame(row: ComparisonRow, before: ComparisonRow | undefined): boolean {
  return before !== undefined && before.code === row.code && before.what === row.what;
}

function runFrom(rows: readonly ComparisonRow[], at: number): number {
  let end = at + 1;
  while (end < rows.length && isSame(rows[end] as ComparisonRow, rows[at])) end += 1;
  return end - at;
}
