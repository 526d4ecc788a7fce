import { useCallback } from 'react';
import type { Host } from '../../../shared-types/host.ts';
import { manifestDocument, type PrintRequest } from './manifestDocument.ts';
import { usePdf } from './usePdf.ts';
import type { MadePdf, PrintMeans } from './usePdf.ts';

export type SheetRequest = Omit<PrintRequest, 'fonts' | 'appVersion'>;

/** The manifest's PDF, made anew whenever what it says changes. */
export function useManifestPdf(host: Host, request: SheetRequest): { pdf: MadePdf; again: () => void } {
  const { plan, result, outing, units, fileName, paper, dataTime, person, carried, map, frozen, known } = request;
  const document = useCallback(
    (means: PrintMeans) =>
      manifestDocument({
        plan,
        result,
        outing,
        units,
        fileName,
        paper,
        dataTime,
        person,
        carried,
        map,
        frozen,
        known,
        ...means,
      }),
    [plan, result, outing, units, fileName, paper, dataTime, person, carried, map, frozen, known],
  );
  return usePdf(host, document);
}
