import type { Decision } from '../../../shared-types/judged.ts';
import type { AcceptedFinding } from '../../../shared-types/records/judgedLists.ts';
import type { Report, ReportHeading, ReportRow } from '../report/report.ts';
import { asRunRow, calloutRow } from '../report/rowsOf.ts';
import type { FoundList } from './useFound.ts';

/**
 * The report over some lists of a task. Rows of several lists stand under the name of theirs, for an id may be in more than one.
 *
 * @param heading - but for its subject and where rows came from, which follow from the lists
 */
export function taskReport(
  lists: readonly FoundList[],
  accepted: (key: string) => readonly AcceptedFinding[],
  heading: Pick<ReportHeading, 'name' | 'task' | 'site' | 'person'>,
): Report {
  const several = lists.length > 1;
  const named = (list: FoundList, row: ReportRow): ReportRow =>
    several ? { ...row, id: `${list.name}: ${row.id}` } : row;
  const rows = lists.flatMap((list) =>
    list.kind !== 'as-run'
      ? list.rows.flatMap(({ key, cells, row }) =>
          row === null ? [] : [named(list, calloutRow(row, { cells, accepted: accepted(key) }))],
        )
      : list.rows.flatMap(({ key, cells, row }) =>
          row === null ? [] : [named(list, asRunRow(row, { cells, accepted: accepted(key) }))],
        ),
  );
  const summary: Record<Decision, number> = { conforming: 0, nonconforming: 0, indeterminate: 0 };
  for (const { decision } of rows) summary[decision] += 1;
  const kinds = new Set(lists.map(({ kind }) => (kind === 'steps' ? 'callouts' : kind)));
  const [kind = 'callouts'] = kinds;
  const from = [...new Set(lists.flatMap((list) => list.from ?? []))].join('; ');
  return {
    heading: { ...heading, subject: kinds.size > 1 ? 'both' : kind, from: from === '' ? null : from },
    rows,
    summary,
    unreadable: lists.flatMap((list) =>
      list.rows.flatMap(({ refusals }) =>
        refusals.map((refusal) => (several ? { ...refusal, message: `${list.name}: ${refusal.message}` } : refusal)),
      ),
    ),
    unknownColumns: [...new Set(lists.flatMap(({ unknownColumns }) => unknownColumns))],
    notes: [...new Set(lists.flatMap(({ notes }) => notes))],
  };
}
