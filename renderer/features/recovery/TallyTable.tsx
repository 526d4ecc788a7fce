import { grouped } from './grouped.ts';
import { differenceText, tallyRows, totalRecords } from './tallies.ts';
import type { Tally } from '../../store/store.ts';

export interface TallyTableProps {
  journal: Tally;
  found: Tally | null;
}

/** What should be there and what was found, side by side. */
export function TallyTable({ journal, found }: TallyTableProps) {
  const rows = tallyRows({ journal, found });
  const sums = { journal: totalRecords(journal.counts), found: found === null ? null : totalRecords(found.counts) };
  const heads = { journal: journal.seq, found: found?.seq ?? null };
  const shown = (number: number | null): string => (number === null ? '–' : grouped(number));
  return (
    <table className="bw-tally">
      <caption className="bw-hidden">Records in the journal and in the working copy</caption>
      <thead>
        <tr>
          <th scope="col">Records</th>
          <th scope="col">By the journal</th>
          <th scope="col">In the working copy</th>
          <th scope="col">Difference</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.table} data-apart={apart(row)}>
            <th scope="row">{row.word}</th>
            <td>{shown(row.journal)}</td>
            <td>{shown(row.found)}</td>
            <td>{differenceText(row)}</td>
          </tr>
        ))}
        {rows.length === 0 ? (
          <tr>
            <td colSpan={4}>Neither holds a record.</td>
          </tr>
        ) : null}
      </tbody>
      <tfoot>
        <tr data-apart={apart(sums)}>
          <th scope="row">All records</th>
          <td>{shown(sums.journal)}</td>
          <td>{shown(sums.found)}</td>
          <td>{differenceText(sums)}</td>
        </tr>
        <tr data-apart={apart(heads)}>
          <th scope="row">Last entry</th>
          <td>{shown(heads.journal)}</td>
          <td>{shown(heads.found)}</td>
          <td>{heads.found === heads.journal ? 'the same' : differenceText(heads)}</td>
        </tr>
      </tfoot>
    </table>
  );
}

function apart({ journal, found }: { journal: number; found: number | null }): true | undefined {
  return found !== null && found !== journal ? true : undefined;
}
