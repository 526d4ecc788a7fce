/** The journal of the browser window: calls to the loopback server, and one answer held open for the right to write. */
import type { JournalHost } from '../../shared-types/host.ts';
import {
  hostEnded,
  type Appended,
  type JournalPage,
  type JournalState,
  type Lease,
} from '../../shared-types/journal.ts';
import { api, type BeganAgain, type LeaseLine } from '../../shared-types/ipc.ts';
import { RefusedError } from '../engine/errors.ts';
import { bodyOf, readLong } from './longJson.ts';

/** Asks by POST and answers once the answer has begun; refusals are thrown. */
export type Ask = (address: string, body: string | Blob, signal?: AbortSignal) => Promise<Response>;

export function browserJournal(ask: Ask): JournalHost {
  const call = async <T>(address: string, request: unknown): Promise<T> => {
    const response = await ask(address, await bodyOf(request));
    try {
      return (await readLong(await response.text())) as T;
    } catch (cause) {
      throw brokenOff(cause);
    }
  };
  return {
    open: () => call<JournalState>(api.journalOpen, {}),
    append: (request) => call<Appended>(api.journalAppend, request),
    read: (request) => call<JournalPage>(api.journalRead, request),
    async setDatabase(request) {
      await call(api.journalSetDatabase, request);
    },
    beginAgain: (request) => call<BeganAgain>(api.journalBeginAgain, request),
    lease: (request, onLost) => lease(ask, request, onLost),
  };
}

/** The server frees the lease when this connection ends, in whichever way the page goes. */
async function lease(
  ask: Ask,
  request: { takeOver: boolean },
  onLost: (reason: string) => void,
): Promise<Lease | null> {
  const leaving = new AbortController();
  const response = await ask(api.journalLease, JSON.stringify(request), leaving.signal);
  const lines = linesOf(response);
  const first = await lines.next().catch((cause: unknown) => Promise.reject(brokenOff(cause)));
  const granted = first.done === true ? null : first.value;
  if (granted === null || !('lease' in granted)) throw brokenOff('no answer');
  if (granted.lease === null) return null;
  void untilLost(lines).then((reason) => {
    if (!leaving.signal.aborted) onLost(reason);
  });
  return { id: granted.lease, end: () => leaving.abort() };
}

async function untilLost(lines: AsyncGenerator<LeaseLine>): Promise<string> {
  try {
    for await (const line of lines) if ('lost' in line) return line.lost;
  } catch {
    // The same as an end: nobody holds the other side any more.
  }
  return hostEnded;
}

async function* linesOf(response: Response): AsyncGenerator<LeaseLine> {
  const reader = response.body?.pipeThrough(new TextDecoderStream()).getReader();
  let held = '';
  for (;;) {
    const part = await reader?.read();
    if (part === undefined || part.done) return;
    held += part.value;
    for (let end = held.indexOf('\n'); end >= 0; end = held.indexOf('\n')) {
      yield JSON.parse(held.slice(0, end)) as LeaseLine;
      held = held.slice(end + 1);
    }
  }
}

function brokenOff(cause: unknown): RefusedError {
  return new RefusedError({
    code: 'not-available',
    message: `The program behind this window broke off its answer (${String(cause)}). Start Bagwright again.`,
  });
}
