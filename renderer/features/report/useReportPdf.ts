import { useCallback, useEffect, useState } from 'react';
import type { DocumentToPrint, Host } from '../../../shared-types/host.ts';
import { loadPrintFonts } from '../manifest/loadPrintFonts.ts';
import { useJournalHead } from '../manifest/useJournalHead.ts';
import type { Report } from './report.ts';
import { reportDocument } from './reportDocument.ts';

export type ReportPdf =
  | { state: 'making' }
  | { state: 'made'; bytes: Uint8Array }
  /** In the host's own words: no browser found, too late, not available. */
  | { state: 'failed'; reason: string };

/** Makes the PDF anew whenever what it says changes; an answer that comes too late is dropped. */
export function useReportPdf(
  host: Host,
  x: { report: Report; paper: DocumentToPrint['paper']; dataTime: string },
): { pdf: ReportPdf; again: () => void } {
  const { report, paper, dataTime } = x;
  const [pdf, setPdf] = useState<ReportPdf>({ state: 'making' });
  const [round, setRound] = useState(0);
  const journalHead = useJournalHead();
  useEffect(() => {
    let wanted = true;
    setPdf({ state: 'making' });
    const make = async (): Promise<Uint8Array> => {
      const [fonts, { version }, journal] = await Promise.all([loadPrintFonts(), host.info(), journalHead()]);
      return host.makePdf(await reportDocument({ report, paper, dataTime, appVersion: version, fonts, journal }));
    };
    make().then(
      (bytes) => wanted && setPdf({ state: 'made', bytes }),
      (error: unknown) =>
        wanted && setPdf({ state: 'failed', reason: error instanceof Error ? error.message : String(error) }),
    );
    return () => void (wanted = false);
  }, [host, report, paper, dataTime, round, journalHead]);
  const again = useCallback(() => setRound((n) => n + 1), []);
  return { pdf, again };
}
