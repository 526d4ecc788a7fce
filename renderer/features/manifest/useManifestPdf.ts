import { useCallback, useEffect, useState } from 'react';
import type { Host } from '../../../shared-types/host.ts';
import { loadPrintFonts } from './loadPrintFonts.ts';
import { manifestDocument, type PrintRequest } from './manifestDocument.ts';

export type ManifestPdf =
  | { state: 'making' }
  | { state: 'made'; bytes: Uint8Array }
  /** In the host's own words: no browser found, too late, not available. */
  | { state: 'failed'; reason: string };

export type SheetRequest = Omit<PrintRequest, 'fonts' | 'appVersion'>;

/** Makes the PDF anew whenever what it says changes; an answer that comes too late is dropped. */
export function useManifestPdf(host: Host, request: SheetRequest): { pdf: ManifestPdf; again: () => void } {
  const { plan, result, outing, units, fileName, paper, dataTime, person } = request;
  const [pdf, setPdf] = useState<ManifestPdf>({ state: 'making' });
  const [round, setRound] = useState(0);
  useEffect(() => {
    let wanted = true;
    setPdf({ state: 'making' });
    const make = async (): Promise<Uint8Array> => {
      const [fonts, { version }] = await Promise.all([loadPrintFonts(), host.info()]);
      const document = await manifestDocument({
        plan,
        result,
        outing,
        units,
        fileName,
        paper,
        dataTime,
        person,
        fonts,
        appVersion: version,
      });
      return host.makePdf(document);
    };
    make().then(
      (bytes) => wanted && setPdf({ state: 'made', bytes }),
      (error: unknown) =>
        wanted && setPdf({ state: 'failed', reason: error instanceof Error ? error.message : String(error) }),
    );
    return () => void (wanted = false);
  }, [host, plan, result, outing, units, fileName, paper, dataTime, person, round]);
  const again = useCallback(() => setRound((n) => n + 1), []);
  return { pdf, again };
}
