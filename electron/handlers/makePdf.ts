/** A PDF, laid out in a hidden window that can run nothing and reach nothing. */
import { randomUUID } from 'node:crypto';
import { BrowserWindow, session, type Session } from 'electron';
import type { DocumentToPrint } from '../../shared-types/host.ts';
import { identity } from '../../shared-types/ipc.ts';
import type { Handlers } from '../ipc.ts';
import { lockSession } from '../lockdown.ts';
import { oneAtATime } from '../oneAtATime.ts';
import { dataTimeOf, withFixedDates } from '../pdf/fixedDates.ts';
import { printAgent, printDeadlineMs, printPolicy, withinDeadline } from '../pdf/printRules.ts';
import { HostRefusal } from '../site/refusal.ts';
import { lockedPreferences } from '../window.ts';

/** Without `persist:` a partition lives in memory, apart from the program's data. */
export const printPartition = 'bagwright-print';
const printOrigin = `${identity.scheme}://print`;

export function makePdf(deadlineMs: number = printDeadlineMs): Handlers['makePdf'] {
  const inTurn = oneAtATime();
  let desk: PrintDesk | null = null;
  return (_window, document) =>
    inTurn(async () => {
      desk ??= printDesk();
      const pdf = await layOut(desk, document, deadlineMs);
      return withFixedDates(pdf, dataTimeOf(document.html));
    });
}

interface PrintDesk {
  /** The one address that answers, and what it answers. */
  lay: (address: string, html: string) => void;
  clear: () => void;
}

function printDesk(): PrintDesk {
  let laid: { address: string; html: string } | null = null;
  const partition: Session = session.fromPartition(printPartition, { cache: false });
  lockSession(partition, (url) => url === laid?.address || url.startsWith('data:'));
  partition.protocol.handle(identity.scheme, (request) =>
    laid !== null && request.url === laid.address && request.method === 'GET'
      ? new Response(laid.html, {
          headers: { 'Content-Type': 'text/html; charset=utf-8', 'Content-Security-Policy': printPolicy },
        })
      : new Response('', { status: 404 }),
  );
  return { lay: (address, html) => (laid = { address, html }), clear: () => (laid = null) };
}

async function layOut(desk: PrintDesk, { html, paper }: DocumentToPrint, deadlineMs: number): Promise<Uint8Array> {
  const address = `${printOrigin}/${randomUUID()}`;
  const hidden = new BrowserWindow({
    show: false,
    webPreferences: { ...lockedPreferences(), javascript: false, partition: printPartition },
  });
  desk.lay(address, html);
  try {
    const work = async (): Promise<Uint8Array> => {
      await hidden.loadURL(address, { userAgent: printAgent });
      return await hidden.webContents.printToPDF({
        pageSize: paper,
        preferCSSPageSize: true,
        printBackground: true,
        generateTaggedPDF: true,
      });
    };
    return await withinDeadline(work(), deadlineMs, () => failed(`it was not finished within ${deadlineMs / 1000} s`));
  } catch (cause) {
    throw cause instanceof HostRefusal ? cause : failed(cause instanceof Error ? cause.message : 'unknown reason');
  } finally {
    desk.clear();
    hidden.destroy();
  }
}

function failed(reason: string): HostRefusal {
  return new HostRefusal({ code: 'internal', message: `The PDF could not be made: ${reason}` });
}
