/** The page's calls: each checks its argument as a stranger's, does its one thing, and answers or refuses. */
import type { IncomingMessage } from 'node:http';
import { safeFileName } from '../../shared-types/fileName.ts';
import type { DocumentToPrint, HostInfo } from '../../shared-types/host.ts';
import {
  api,
  argumentRefusal,
  documentToPrint,
  largestBodyBytes,
  pdfToPrint,
  type PrintOutcome,
} from '../../shared-types/ipc.ts';
import { HostRefusal } from '../site/refusal.ts';
import { readBody } from './body.ts';
import { json, type Reply } from './headers.ts';
import type { PrintedShelf } from './printed.ts';

export interface CallMeans {
  info: HostInfo;
  origin: string;
  printed: PrintedShelf;
  makePdf: (document: DocumentToPrint) => Promise<Uint8Array>;
  /** Opens a second window of the same browser; null where this run has not opened one itself. */
  openWindow: ((address: string) => Promise<boolean>) | null;
}

type Call = (request: IncomingMessage, means: CallMeans) => Promise<Reply>;

export const calls: Readonly<Record<string, { mediaType: string; answer: Call }>> = {
  [api.info]: {
    mediaType: 'application/json',
    async answer(request, { info }) {
      await readBody(request, 1_000);
      return json(200, info);
    },
  },
  [api.pdf]: {
    mediaType: 'application/json',
    async answer(request, { makePdf }) {
      const asked = documentToPrint.safeParse(readJson(await readBody(request, largestBodyBytes)));
      if (!asked.success) throw new HostRefusal(argumentRefusal(asked.error));
      return { status: 200, mediaType: 'application/pdf', body: Buffer.from(await makePdf(asked.data)) };
    },
  },
  [api.print]: {
    mediaType: 'application/pdf',
    async answer(request, { printed, origin, openWindow }) {
      const bytes = await readBody(request, largestBodyBytes);
      const asked = pdfToPrint.safeParse({ name: readName(request), bytes });
      if (!asked.success) throw new HostRefusal(argumentRefusal(asked.error));
      const path = printed.keep({ name: safeFileName(asked.data.name), bytes });
      const address = origin + path;
      const opened = openWindow !== null && (await openWindow(address));
      return json(200, { opened, address: opened ? null : address } satisfies PrintOutcome);
    },
  },
};

function readJson(bytes: Buffer): unknown {
  try {
    return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch {
    throw new HostRefusal({ code: 'not-json', message: 'The program was sent something that is not JSON' });
  }
}

function readName(request: IncomingMessage): string {
  const name = request.headers[api.nameHeader];
  try {
    return typeof name === 'string' ? decodeURIComponent(name) : '';
  } catch {
    return '';
  }
}
