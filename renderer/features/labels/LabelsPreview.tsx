import { useCallback, useMemo, useState } from 'react';
import type { DocumentToPrint, Host } from '../../../shared-types/host.ts';
import { isoWithOffset } from '../manifest/isoWithOffset.ts';
import { PdfSheet } from '../manifest/PdfSheet.tsx';
import { usePdf } from '../manifest/usePdf.ts';
import type { PrintMeans } from '../manifest/usePdf.ts';
import { countOf } from '../steps/words.ts';
import type { LabelForm } from './labelForm.ts';
import { labelsDocument } from './labelsDocument.ts';
import type { Label } from './labels.ts';

export interface LabelsPreviewProps {
  labels: readonly Label[];
  form: LabelForm;
  source: string;
  revision: string;
  host: Host;
  paper: DocumentToPrint['paper'];
  onPaper: (paper: DocumentToPrint['paper']) => void;
  now: () => Date;
}

/** The labels as the very PDF that is printed and saved. */
export function LabelsPreview({ labels, form, source, revision, host, paper, onPaper, now }: LabelsPreviewProps) {
  const [clock] = useState(() => now);
  const asked = useMemo(
    () => ({ request: { labels, form, source, revision }, dataTime: isoWithOffset(clock()) }),
    [labels, form, source, revision, clock],
  );
  const { request, dataTime } = asked;
  const document = useCallback(
    (means: PrintMeans) => labelsDocument({ ...request, ...means, paper, dataTime }),
    [request, paper, dataTime],
  );
  const { pdf, again } = usePdf(host, document);
  return (
    <PdfSheet
      label="Labels"
      word="labels"
      heading={`${countOf(labels.length, 'label')}, ${source}`}
      host={host}
      pdf={pdf}
      again={again}
      name={`labels_${source.replaceAll(/[^\p{L}\p{N}]+/gu, '-')}_${dataTime.slice(0, 10)}.pdf`}
      pagesLabel="The labels as they will be printed"
      paper={paper}
      onPaper={form.on === 'single' ? null : onPaper}
    >
      <p className="bw-second">
        Print at 100 %, not fitted to the page. Scan one of them before they are stuck on: Settings has a field to try
        the reader at.{form.on === 'single' ? ' The first to come carry the caution, and what the labels are of.' : ''}
      </p>
    </PdfSheet>
  );
}
