import { useEffect, useMemo, useState } from 'react';
import { Button } from '@mantine/core';
import type { DocumentToPrint, Host } from '../../../shared-types/host.ts';
import type { CalloutLook, JudgedTyped, TableJudged } from '../../../shared-types/inspection.ts';
import type { AcceptedFinding } from '../../../shared-types/records/judgedLists.ts';
import { refusalOf } from '../../store/session.ts';
import { allRows } from '../judged/allRows.ts';
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

/** The judgement of a list as a document: what is on the screen now, with what was accepted. */
export function CalloutReport(props: CalloutReportProps) {
  const { of, heading, judged, count, accepted, host, paper, onPaper, onClose } = props;
  const [rows, setRows] = useState<JudgedTyped<CalloutLook>[] | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  useEffect(() => {
    const left = new AbortController();
    const gather = async (): Promise<void> => {
      const all = await allRows(count, (from, piece) => keptDesk().judgedRows(of, from, piece));
      if (!left.signal.aborted) setRows(all);
    };
    setFault(null);
    gather().catch((error: unknown) => (left.signal.aborted ? undefined : setFault(refusalOf(error).message)));
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
      {fault !== null ? (
        <p role="alert">The judgement cannot be gathered: {fault}</p>
      ) : report === null ? (
        <p role="status">Gathering the judgement…</p>
      ) : (
        <ReportSheet report={report} host={host} paper={paper} onPaper={onPaper} />
      )}
    </div>
  );
}
