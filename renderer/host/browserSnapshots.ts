/** The snapshots of the browser window: calls to the loopback server. */
import type { SnapshotHost } from '../../shared-types/host.ts';
import { api } from '../../shared-types/ipc.ts';
import type { KeptSnapshot, SnapshotList, SnapshotPage } from '../../shared-types/snapshot.ts';
import { RefusedError } from '../engine/errors.ts';
import type { Ask } from './browserJournal.ts';
import { readLong } from './longJson.ts';

export function browserSnapshots(ask: Ask): SnapshotHost {
  const call = async <T>(address: string, request: unknown = {}): Promise<T> =>
    (await readLong(await (await ask(address, JSON.stringify(request))).text())) as T;
  return {
    list: () => call<SnapshotList>(api.snapshotsList),
    make: async (request) => (await call<{ made: KeptSnapshot | null }>(api.snapshotsMake, request)).made,
    read: (request) => call<SnapshotPage>(api.snapshotsRead, request),
    async meant(request) {
      await call(api.snapshotsMeant, request);
    },
    // A page may name no path, and a browser gives it none.
    chooseSecond: () =>
      Promise.reject(
        new RefusedError({
          code: 'not-available',
          message:
            'In a window of a browser the second folder is given at the start: npm start -- --second-folder=FOLDER',
        }),
      ),
    async noSecond() {
      await call(api.snapshotsNoSecond);
    },
  };
}
