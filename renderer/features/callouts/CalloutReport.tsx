import { useEffect, useMemo, useState } from 'react';
import { Button } from '@mantine/core';
import type { DocumentToPrint, Host } from '../../../shared-types/host.ts';
import type { CalloutLook, JudgedTyped, TableJudged } from '../../../shared-types/inspection.ts';
import type { AcceptedFinding } from '../../../shared-types/records/judgedLists.ts';
import type { ReportHeading } from '../report/report.ts';
import { ReportSheet } from '../report/ReportSheet.tsx';
import { calloutRow } from '../report/rowsOf.ts';
import { keptDesk } from './desks.ts';

export interface CalloutReportProps {
  /** Of the list that is reported. */
  of: string;
  heading: ReportHeading;
  judged: TableJudged;
  count: number;
  accepted: (key: string) => readonly AcceptedFinding[];
  host: Host;
  paper: DocumentToPrint['paper'];
  onPaper: (paper: DocumentToPrint['paper']) => void;
  onClose: () => void;
}

const piece = 500;

/** The judgement of a list as a document: what is on the screen now, with what was accepted. */
export function CalloutReport(props: CalloutReportProps) {
  const { of, heading, judged, count, accepted, host, paper, onPaper, onClose } = props;
  const [rows, setRows] = useState<JudgedTyped<CalloutLook>[] | null>(null);
  useEffect(() => {
    const left = new AbortController();
    const gather = async (): Promise<void> => {
      const all: JudgedTyped<CalloutLook>[] = [];
      for (let from = 0; from < count && !left.signal.aborted; from += piece)
        for (const row of await keptDesk().judgedRows(of, from, piece)) all.push(row);
      if (!left.signal.aborted) setRows(all);
    };
    void gather();
    return () => left.abort();
  }, [of, count, judged]);
  const report = useMemo(() => {
    if (rows === null) return null;
    const { summary, unknownColumns, notes } = judged;
    return {
      heading,
      rows: rows.flatMap(({ key, cells, row }) =>
        row === null ? [] : [calloutRow(row, { cells, accepted: accepted(key) })],
      ),
      summary,
      unreadable: rows.flatMap(({ refusals }) => refusals),
      unknownColumns,
      notes,
    };
  }, [rows, heading, judged, accepted]);
  return (
    <div className="bw-pane-detail bw-callouts-whole">
      <div className="bw-callouts-line">
        <Button onClick={onClose}>Back to the callouts</Button>
      </div>
      {report === null ? (
        <p role="status">Gathering the judgement…</p>
      ) : (
        <ReportSheet report={report} host={host} paper={paper} onPaper={onPaper} />
      )}
    </div>
  );
}
