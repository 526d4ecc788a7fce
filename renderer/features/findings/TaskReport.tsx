import { useMemo, useState } from 'react';
import { Checkbox, TextInput } from '@mantine/core';
import type { Host } from '../../../shared-types/host.ts';
import type { AcceptedFinding } from '../../../shared-types/records/judgedLists.ts';
import type { TaskAtHand } from '../../store/session.ts';
import { ReportSheet } from '../report/ReportSheet.tsx';
import { countOf } from '../steps/words.ts';
import { taskReport } from './taskReport.ts';
import type { FoundList } from './useFound.ts';

export interface TaskReportProps {
  lists: readonly FoundList[];
  accepted: (key: string) => readonly AcceptedFinding[];
  atHand: TaskAtHand;
  host: Host;
  person: string;
  paper: 'A4' | 'Letter';
}

const kindWords = { callouts: 'callout', steps: 'step', 'as-run': 'record' } as const;

/** The report of the task: which lists, who signs, then the document itself and its files. */
export function TaskReport({ lists, accepted, atHand, host, person: known, paper }: TaskReportProps) {
  const [left, setLeft] = useState<ReadonlySet<string>>(new Set());
  const [person, setPerson] = useState(known);
  const { code, name, site } = { ...atHand.task, site: atHand.plan.source.task?.site ?? null };
  const report = useMemo(
    () =>
      taskReport(
        lists.filter(({ id }) => !left.has(id)),
        accepted,
        { name: `${code}, ${name}`, task: code, site, person },
      ),
    // What was accepted is read once, when the report is opened or asked otherwise.
    // eslint-disable-next-line react-hooks/exhaustive-deps
    [lists, left, code, name, site, person],
  );
  return (
    <div className="bw-findings-report-body">
      <div className="bw-findings-choice">
        <fieldset>
          <legend>Lists reported on</legend>
          {lists.map(({ id, name: list, kind, rows }) => (
            <Checkbox
              key={id}
              label={`${list}, ${countOf(rows.length, kindWords[kind])}`}
              checked={!left.has(id)}
              onChange={({ currentTarget: { checked } }) =>
                setLeft(new Set(checked ? [...left].filter((one) => one !== id) : [...left, id]))
              }
            />
          ))}
        </fieldset>
        <TextInput
          label="Signed by"
          description="Stands in the report as who reports it"
          autoComplete="off"
          maxLength={2000}
          value={person}
          error={person.trim() === '' ? 'A name is missing: the report is not signed.' : undefined}
          onChange={({ currentTarget: { value } }) => setPerson(value)}
        />
      </div>
      {left.size === lists.length ? (
        <p role="alert">No list is chosen: there is nothing to report on.</p>
      ) : (
        <ReportSheet report={report} host={host} paper={paper} />
      )}
    </div>
  );
}
