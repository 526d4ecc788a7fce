import { useCallback, useMemo, useState } from 'react';
import type { Host } from '../../../shared-types/host.ts';
import type { Discrepancy } from '../../../shared-types/records/revision.ts';
import type { Task } from '../../../shared-types/records/task.ts';
import { placeAddress } from '../../store/place.ts';
import { isoWithOffset } from '../manifest/isoWithOffset.ts';
import { PdfSheet } from '../manifest/PdfSheet.tsx';
import { usePdf } from '../manifest/usePdf.ts';
import type { PrintMeans } from '../manifest/usePdf.ts';
import { useSession, useSessionState } from '../session/SessionContext.ts';
import { discrepancyList } from './discrepancyList.ts';
import type { DiscrepancyFacts } from './discrepancyList.ts';
import { listDocument } from './recordPrint.ts';

export interface DiscrepancyReportProps extends DiscrepancyFacts {
  discrepancies: readonly Discrepancy[];
  scope: 'task' | 'all';
  task: Task | null;
  host: Host;
  now: () => Date;
}

/** The discrepancies as the very PDF that is printed and saved. */
export function DiscrepancyReport(props: DiscrepancyReportProps) {
  const { discrepancies, scope, task, host, now, partsOf, taskOf, numberOf, namesOf } = props;
  const session = useSession();
  const { paper } = useSessionState().preferences;
  const called = scope === 'all' || task === null ? 'Every task' : `${task.code}, ${task.name}`;
  const list = discrepancyList(discrepancies, { partsOf, taskOf, numberOf, namesOf }, { called, all: scope === 'all' });
  // The same words are the same document: it is laid out once.
  const key = JSON.stringify(list);
  const [clock] = useState(() => now);
  const asked = useMemo(
    () => ({ list, dataTime: isoWithOffset(clock()) }),
    // eslint-disable-next-line react-hooks/exhaustive-deps
    [key, clock],
  );
  const document = useCallback(
    (means: PrintMeans) =>
      listDocument({ ...means, ...asked, paper, margins: { left: [`Task: ${called}`], middle: [] } }),
    [asked, paper, called],
  );
  const { pdf, again } = usePdf(host, document);
  return (
    <>
      <div className="bw-pane-bar">
        <a href={placeAddress({ at: 'discrepancies', of: scope })}>Discrepancies</a>
      </div>
      <PdfSheet
        label="Discrepancy report"
        word="discrepancy report"
        heading={`Discrepancy report, ${called}`}
        host={host}
        pdf={pdf}
        again={again}
        name={`discrepancies_${scope === 'all' || task === null ? 'all' : task.code}_${asked.dataTime.slice(0, 10)}.pdf`}
        pagesLabel="The discrepancy report as it will be printed"
        paper={paper}
        onPaper={(next) => session.prefer({ paper: next })}
      />
    </>
  );
}
