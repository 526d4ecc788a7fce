import { useEffect, useRef, useState } from 'react';
import type { PDFDocumentProxy } from './pdfReader.ts';
import classes from './Manifest.module.css';

export interface PdfPageProps {
  pdf: PDFDocumentProxy;
  number: number;
  /** CSS px for each point of the page. */
  scale: number;
}

interface Size {
  width: number;
  height: number;
}

/** One page of the PDF as it will be printed, painted when it comes near, with its text for who cannot see it. */
export function PdfPage({ pdf, number, scale }: PdfPageProps) {
  const frame = useRef<HTMLDivElement>(null);
  const canvas = useRef<HTMLCanvasElement>(null);
  const [near, setNear] = useState(number === 1);
  const [size, setSize] = useState<Size | null>(null);
  const [text, setText] = useState('');

  useEffect(() => {
    const element = frame.current;
    if (element === null) return undefined;
    const watch = new IntersectionObserver((entries) => setNear(entries.some((entry) => entry.isIntersecting)), {
      rootMargin: '900px',
    });
    watch.observe(element);
    return () => watch.disconnect();
  }, []);

  useEffect(() => {
    let wanted = true;
    let stop = (): void => undefined;
    const paint = async (): Promise<void> => {
      const page = await pdf.getPage(number);
      const dense = page.getViewport({ scale: scale * Math.max(1, window.devicePixelRatio) });
      const shown = page.getViewport({ scale });
      if (!wanted) return;
      setSize({ width: shown.width, height: shown.height });
      const surface = canvas.current;
      if (!near || surface === null) return;
      surface.width = Math.ceil(dense.width);
      surface.height = Math.ceil(dense.height);
      const painting = page.render({ canvas: surface, viewport: dense });
      stop = () => painting.cancel();
      await painting.promise;
      const content = await page.getTextContent();
      if (wanted)
        setText(content.items.map((item) => ('str' in item ? `${item.str}${item.hasEOL ? '\n' : ''}` : '')).join(''));
    };
    paint().catch((error: unknown) => {
      // A painting called off because the page went away or was zoomed is no fault.
      if (wanted && !(error instanceof Error && error.name === 'RenderingCancelledException'))
        setText('This page could not be painted.');
    });
    return () => {
      wanted = false;
      stop();
    };
  }, [pdf, number, scale, near]);

  const label = `Page ${number} of ${pdf.numPages}`;
  return (
    <div className={classes['page']} ref={frame} id={`manifest-page-${number}`} role="group" aria-label={label}>
      <canvas
        ref={canvas}
        className={classes['paper']}
        aria-hidden="true"
        style={size === null ? undefined : { width: `${size.width}px`, height: `${size.height}px` }}
      />
      <p className="bw-hidden">{text}</p>
      <p className={classes['number']}>{label}</p>
    </div>
  );
}
