import { useCallback, useEffect, useState } from 'react';
import type { DocumentToPrint, Host } from '../../../shared-types/host.ts';
import { loadPrintFonts } from './loadPrintFonts.ts';
import type { PrintFace } from './printFonts.ts';
import { useJournalHead } from './useJournalHead.ts';
import type { PrintedHead } from './useJournalHead.ts';

export type MadePdf =
  | { state: 'making' }
  | { state: 'made'; bytes: Uint8Array }
  /** In the host's own words: no browser found, too late, not available. */
  | { state: 'failed'; reason: string };

/** What every printed document has beside its own content. */
export interface PrintMeans {
  fonts: readonly PrintFace[];
  appVersion: string;
  /** The journal's head when it was made. */
  journal?: PrintedHead;
}

/**
 * Makes the PDF anew whenever what it says changes; an answer that comes too late is dropped.
 *
 * @param document - kept as one function as long as the document says the same
 */
export function usePdf(
  host: Host,
  document: (means: PrintMeans) => Promise<DocumentToPrint>,
): { pdf: MadePdf; again: () => void } {
  const [pdf, setPdf] = useState<MadePdf>({ state: 'making' });
  const [round, setRound] = useState(0);
  const journalHead = useJournalHead();
  useEffect(() => {
    let wanted = true;
    setPdf({ state: 'making' });
    const make = async (): Promise<Uint8Array> => {
      const [fonts, { version }, journal] = await Promise.all([loadPrintFonts(), host.info(), journalHead()]);
      return host.makePdf(await document({ fonts, appVersion: version, journal }));
    };
    make().then(
      (bytes) => wanted && setPdf({ state: 'made', bytes }),
      (error: unknown) =>
        wanted && setPdf({ state: 'failed', reason: error instanceof Error ? error.message : String(error) }),
    );
    return () => void (wanted = false);
  }, [host, document, round, journalHead]);
  const again = useCallback(() => setRound((n) => n + 1), []);
  return { pdf, again };
}
