import { getDocument, GlobalWorkerOptions, type PDFDocumentProxy } from 'pdfjs-dist';
import workerAddress from 'pdfjs-dist/build/pdf.worker.min.mjs?url';

GlobalWorkerOptions.workerSrc = workerAddress;

export type { PDFDocumentProxy } from 'pdfjs-dist';

export interface OpenPdf {
  pdf: Promise<PDFDocumentProxy>;
  close: () => void;
}

/** Opens a copy of the bytes: the reader takes away what it is given, and these very bytes are still to be printed. */
export function openPdf(bytes: Uint8Array): OpenPdf {
  const task = getDocument({
    data: bytes.slice(),
    isEvalSupported: false,
    disableAutoFetch: true,
    disableStream: true,
  });
  return { pdf: task.promise, close: () => void task.destroy() };
}
