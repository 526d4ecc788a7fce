import type { SnapshotHost } from '../../../shared-types/host.ts';

/** A host that has made none, and makes none. */
export function noSnapshots(): SnapshotHost {
  return {
    list: async () => ({ snapshots: [], otherNames: [], folder: '/test/data/snapshots', second: null, shrunk: null }),
    make: async () => null,
    read: () => Promise.reject(new Error('there is none')),
    meant: async () => undefined,
    chooseSecond: async () => null,
    noSecond: async () => undefined,
  };
}
