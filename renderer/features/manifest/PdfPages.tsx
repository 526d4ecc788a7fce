import { Button } from '@mantine/core';
import { useEffect, useState } from 'react';
import { PdfPage } from './PdfPage.tsx';
import { openPdf, type PDFDocumentProxy } from './pdfReader.ts';
import classes from './Manifest.module.css';

const zooms = [0.6, 0.8, 1, 1.25, 1.6, 2] as const;
const firstZoom = 2;

export interface PdfPagesProps {
  /** The PDF to be printed; what is shown is painted from it. */
  bytes: Uint8Array;
  /** What the pages are, for those who cannot see them. */
  label?: string;
}

/** The pages of a PDF, one under another. */
export function PdfPages({ bytes, label = 'The manifest as it will be printed' }: PdfPagesProps) {
  const [pdf, setPdf] = useState<PDFDocumentProxy | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  const [zoom, setZoom] = useState(firstZoom);
  const [at, setAt] = useState(1);
  useEffect(() => {
    let wanted = true;
    setPdf(null);
    setFault(null);
    setAt(1);
    const opened = openPdf(bytes);
    opened.pdf.then(
      (document) => wanted && setPdf(document),
      (error: unknown) => wanted && setFault(error instanceof Error ? error.message : String(error)),
    );
    return () => {
      wanted = false;
      opened.close();
    };
  }, [bytes]);

  if (fault !== null)
    return <p role="alert">The PDF was made and can be printed or saved, but not shown here: {fault}</p>;
  if (pdf === null) return <p>Opening the pages…</p>;
  const scale = (zooms[zoom] ?? 1) * (96 / 72);
  const go = (page: number): void => {
    setAt(page);
    document.querySelector(`#manifest-page-${page}`)?.scrollIntoView({ block: 'start' });
  };
  return (
    <>
      <div className={classes['tools']} role="group" aria-label="Pages shown">
        <Button size="compact-sm" disabled={at <= 1} onClick={() => go(at - 1)}>
          Page before
        </Button>
        <span role="status">
          Page {at} of {pdf.numPages}
        </span>
        <Button size="compact-sm" disabled={at >= pdf.numPages} onClick={() => go(at + 1)}>
          Page after
        </Button>
        <Button size="compact-sm" disabled={zoom === 0} onClick={() => setZoom(zoom - 1)}>
          Smaller
        </Button>
        <span>{Math.round((zooms[zoom] ?? 1) * 100)} %</span>
        <Button size="compact-sm" disabled={zoom === zooms.length - 1} onClick={() => setZoom(zoom + 1)}>
          Larger
        </Button>
      </div>
      <div className={classes['pages']} tabIndex={0} role="region" aria-label={label}>
        {Array.from({ length: pdf.numPages }, (_, index) => (
          <PdfPage key={index} pdf={pdf} number={index + 1} scale={scale} />
        ))}
      </div>
    </>
  );
}
