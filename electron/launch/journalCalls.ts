/** The journal's calls. The right to write is an answer held open: when its connection ends, the right is free. */
import type { IncomingMessage } from 'node:http';
import { api, argumentRefusal, journalRequests, largestBodyBytes, type LeaseLine } from '../../shared-types/ipc.ts';
import type { z } from '../../shared-types/schema.ts';
import type { JournalDesk } from '../journal/desk.ts';
import { HostRefusal } from '../site/refusal.ts';
import { readJson } from './body.ts';
import type { KnownCall } from './callMeans.ts';
import { json, type Reply } from './headers.ts';

const fewBytes = 1_000;
/** A page loaded again may ask before the end of its former self is known. */
const patienceMs = 1_000;

type RequestName = keyof typeof journalRequests;
type RequestOf<N extends RequestName> = z.infer<(typeof journalRequests)[N]>;

export const journalCalls: Readonly<Record<string, KnownCall>> = {
  [api.journalOpen]: {
    mediaType: 'application/json',
    async answer(request, { journal }) {
      await readJson(request, fewBytes);
      return json(200, await journal.open());
    },
  },
  [api.journalAppend]: call('append', largestBodyBytes, (journal, asked) => journal.append(asked)),
  [api.journalRead]: call('read', fewBytes, (journal, asked) => journal.read(asked)),
  [api.journalSetDatabase]: call('setDatabase', fewBytes, async (journal, asked) => {
    await journal.setDatabase(asked);
    return {};
  }),
  [api.journalBeginAgain]: call('beginAgain', fewBytes, (journal, asked) => journal.beginAgain(asked)),
  [api.journalLease]: {
    mediaType: 'application/json',
    async answer(request, { journal }) {
      const { takeOver } = await readRequest('lease', request, fewBytes);
      if (!takeOver) await journal.lease.untilFree(patienceMs);
      return leaseReply(journal, takeOver);
    },
  },
};

function call<N extends RequestName>(
  name: N,
  limitBytes: number,
  work: (journal: JournalDesk, asked: RequestOf<N>) => Promise<unknown>,
): KnownCall {
  return {
    mediaType: 'application/json',
    answer: async (request, { journal }) =>
      json(200, await work(journal, await readRequest(name, request, limitBytes))),
  };
}

async function readRequest<N extends RequestName>(
  name: N,
  request: IncomingMessage,
  limitBytes: number,
): Promise<RequestOf<N>> {
  const asked = journalRequests[name].safeParse(await readJson(request, limitBytes));
  if (!asked.success) throw new HostRefusal(argumentRefusal(asked.error));
  return asked.data as RequestOf<N>;
}

function leaseReply(journal: JournalDesk, takeOver: boolean): Reply {
  return {
    status: 200,
    mediaType: 'application/x-ndjson; charset=utf-8',
    live(answer) {
      const say = (line: LeaseLine): void => answer.write(`${JSON.stringify(line)}\n`);
      const lease = journal.lease.take({ takeOver }, (reason) => {
        say({ lost: reason });
        answer.end();
      });
      say({ lease: lease?.id ?? null });
      if (lease === null) answer.end();
      else answer.onEnd(() => lease.end());
    },
  };
}
