/** The page's calls: each checks its argument as a stranger's, does its one thing, and answers or refuses. */
import type { IncomingMessage } from 'node:http';
import { safeFileName } from '../../shared-types/fileName.ts';
import {
  api,
  argumentRefusal,
  documentToPrint,
  largestBodyBytes,
  pdfToPrint,
  type PrintOutcome,
} from '../../shared-types/ipc.ts';
import { HostRefusal } from '../site/refusal.ts';
import { readBody, readJson } from './body.ts';
import { json } from './headers.ts';
import { journalCalls } from './journalCalls.ts';
import { snapshotCalls } from './snapshotCalls.ts';
import type { KnownCall } from './callMeans.ts';

export const calls: Readonly<Record<string, KnownCall>> = {
  ...journalCalls,
  ...snapshotCalls,
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
      const asked = documentToPrint.safeParse(await readJson(request, largestBodyBytes));
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

function readName(request: IncomingMessage): string {
  const name = request.headers[api.nameHeader];
  try {
    return typeof name === 'string' ? decodeURIComponent(name) : '';
  } catch {
    return '';
  }
}
