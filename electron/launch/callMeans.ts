/** What a call of the page's has to work with, and the shape all of them have. */
import type { IncomingMessage } from 'node:http';
import type { DocumentToPrint, HostInfo } from '../../shared-types/host.ts';
import type { JournalDesk } from '../journal/desk.ts';
import type { Reply } from './headers.ts';
import type { PrintedShelf } from './printed.ts';

export interface CallMeans {
  info: HostInfo;
  origin: string;
  printed: PrintedShelf;
  journal: JournalDesk;
  makePdf: (document: DocumentToPrint) => Promise<Uint8Array>;
  /** Opens a second window of the same browser; null where this run has not opened one itself. */
  openWindow: ((address: string) => Promise<boolean>) | null;
}

export type Call = (request: IncomingMessage, means: CallMeans) => Promise<Reply>;

export interface KnownCall {
  mediaType: string;
  answer: Call;
}
