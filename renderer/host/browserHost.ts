/** The host of the browser window: the loopback server answers what a page cannot do alone. */
import type { Refusal } from '../../shared-types/errors.ts';
import { safeFileName } from '../../shared-types/fileName.ts';
import type { Host, HostInfo } from '../../shared-types/host.ts';
import { api, type PrintOutcome } from '../../shared-types/ipc.ts';
import { RefusedError } from '../engine/errors.ts';
import { browserJournal } from './browserJournal.ts';
import { browserSnapshots } from './browserSnapshots.ts';
import { readText, type ChosenFile } from './readText.ts';

/** What the page itself supplies; handed in so that the host is the same with and without a document around it. */
export interface PageMeans {
  token: string;
  fetch: typeof fetch;
  chooseFile: (extensions: string[]) => Promise<ChosenFile | null>;
  download: (file: { name: string; mediaType: string; bytes: Uint8Array }) => void;
}

export function browserHost(page: PageMeans): Host {
  const ask = async (
    address: string,
    body: BodyInit,
    headers: Record<string, string>,
    signal?: AbortSignal,
  ): Promise<Response> => {
    let response: Response;
    try {
      response = await page.fetch(address, {
        method: 'POST',
        body,
        headers: { ...headers, [api.tokenHeader]: page.token },
        cache: 'no-store',
        redirect: 'error',
        ...(signal === undefined ? {} : { signal }),
      });
    } catch (cause) {
      throw new RefusedError({
        code: 'not-available',
        message: `The program behind this window does not answer (${String(cause)}). Start Bagwright again.`,
      });
    }
    if (!response.ok) throw new RefusedError(await refusalOf(response));
    return response;
  };
  const json = { 'content-type': 'application/json' };

  return {
    async info() {
      return (await (await ask(api.info, '{}', json)).json()) as HostInfo;
    },
    async openText({ extensions, maxBytes }) {
      const file = await page.chooseFile(extensions);
      return file === null ? null : await readText(file, maxBytes);
    },
    async saveFile(file) {
      page.download({ ...file, name: safeFileName(file.name) });
      return true;
    },
    async makePdf(document) {
      const response = await ask(api.pdf, JSON.stringify(document), json);
      return new Uint8Array(await response.arrayBuffer());
    },
    async printPdf({ name, bytes }) {
      const response = await ask(api.print, new Blob([Uint8Array.from(bytes)]), {
        'content-type': 'application/pdf',
        [api.nameHeader]: encodeURIComponent(safeFileName(name)),
      });
      return (await response.json()) as PrintOutcome;
    },
    journal: browserJournal((address, body, signal) => ask(address, body, json, signal)),
    snapshots: browserSnapshots((address, body, signal) => ask(address, body, json, signal)),
  };
}

async function refusalOf(response: Response): Promise<Refusal> {
  const text = await response.text();
  try {
    return (JSON.parse(text) as { refusal: Refusal }).refusal;
  } catch {
    return { code: 'internal', message: `The program answered ${response.status} ${response.statusText}` };
  }
}
