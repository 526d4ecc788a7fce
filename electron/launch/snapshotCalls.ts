/** The snapshots' calls. A second folder is given when the program is started: no call takes a path. */
import type { IncomingMessage } from 'node:http';
import { api, argumentRefusal } from '../../shared-types/ipc.ts';
import { snapshotRequests } from '../../shared-types/snapshot.ts';
import type { z } from '../../shared-types/schema.ts';
import type { SnapshotKeeper } from '../journal/snapshots/keeper.ts';
import { HostRefusal } from '../site/refusal.ts';
import { readJson } from './body.ts';
import type { KnownCall } from './callMeans.ts';
import { json } from './headers.ts';

const fewBytes = 1_000;
const nothing = 'nothing';

type Requests = typeof snapshotRequests;

export const snapshotCalls: Readonly<Record<string, KnownCall>> = {
  [api.snapshotsList]: call(nothing, (keeper) => keeper.list()),
  [api.snapshotsMake]: call('make', async (keeper, { why }) => ({ made: await keeper.make(why) })),
  [api.snapshotsRead]: call('read', (keeper, asked) => keeper.read(asked)),
  [api.snapshotsMeant]: call('meant', async (keeper, asked) => {
    await keeper.meant(asked);
    return {};
  }),
  [api.snapshotsNoSecond]: call(nothing, async (keeper) => {
    await keeper.setSecond(null);
    return {};
  }),
};

function call<N extends keyof Requests | typeof nothing>(
  name: N,
  work: (keeper: SnapshotKeeper, asked: N extends keyof Requests ? z.infer<Requests[N]> : unknown) => Promise<unknown>,
): KnownCall {
  return {
    mediaType: 'application/json',
    answer: async (request, { journal }) =>
      json(200, await work(journal.snapshots, (await readAsked(name, request)) as never)),
  };
}

async function readAsked(name: keyof Requests | typeof nothing, request: IncomingMessage): Promise<unknown> {
  const body = await readJson(request, fewBytes);
  if (name === nothing) return body;
  const asked = snapshotRequests[name].safeParse(body);
  if (!asked.success) throw new HostRefusal(argumentRefusal(asked.error));
  return asked.data;
}
