/** A host's snapshots in memory. */
import { canonicalJson } from '../../../shared-types/canonicalJson.ts';
import type { SnapshotHost } from '../../../shared-types/host.ts';
import { recordsVersion, tableNames } from '../../../shared-types/records/index.ts';
import { nameOfSnapshot } from '../../../shared-types/snapshot.ts';
import type {
  KeptSnapshot,
  MeantThing,
  SnapshotHead,
  SnapshotList,
  SnapshotPage,
} from '../../../shared-types/snapshot.ts';
import { sha256 } from '../../../renderer/store/sha256.ts';
import type { Store } from '../../../renderer/store/store.ts';

/** A host in memory, which makes its snapshots of what the store held at that moment. */
export function memorySnapshots(store: Store) {
  const kept: { name: string; page: SnapshotPage; damaged?: KeptSnapshot['damaged'] }[] = [];
  const shownOf = ({ name, page: { head }, damaged = [] }: (typeof kept)[number]): KeptSnapshot => ({
    ...{ name, bytes: 20_480, seq: head.seq, utc: head.utc, why: head.why, damaged, further: furtherNames.has(name) },
    places: damaged.some(({ place }) => place === 'here') ? [] : ['here'],
  });
  const meant: MeantThing[] = [];
  const otherNames: string[] = [];
  const furtherNames = new Set<string>();
  const state: { shrunk: SnapshotList['shrunk']; second: SnapshotList['second'] } = { shrunk: null, second: null };
  const host: SnapshotHost = {
    list: async () => ({
      snapshots: kept.toReversed().map(shownOf),
      otherNames,
      folder: '/data/a folder with a very long name that nobody would give it/snapshots',
      ...state,
    }),
    async make({ why }) {
      const tables = await store.readAll();
      const [counts, sums]: [Record<string, number>, Record<string, string>] = [{}, {}];
      for (const table of tableNames) {
        const lines = [...(tables.get(table) ?? [])]
          .toSorted(([one], [other]) => (one < other ? -1 : 1))
          .map(([, record]) => `${canonicalJson([table, record])}\n`);
        counts[table] = lines.length;
        sums[table] = await sha256(lines.join(''));
      }
      const { seq, hash } = await store.journalHead();
      const utc = new Date(Date.UTC(2031, 3, 5, 10, kept.length)).toISOString();
      const head: SnapshotHead = {
        ...{
          bagwright: 'snapshot',
          form: 1,
          records: recordsVersion,
          seq,
          hash,
          deviceId: 'a'.repeat(32),
          utc,
          why,
          counts,
          sums,
        },
      };
      const records = [...tables].flatMap(([table, own]) =>
        [...own.values()].map((record) => [table, record] as never),
      );
      const made = { name: nameOfSnapshot({ utc, seq, why, again: 0 }), page: { head, records, next: null } };
      kept.push(made);
      return shownOf(made);
    },
    read: async ({ name }) => {
      const found = kept.find((one) => one.name === name);
      if (found === undefined) throw new Error(`${name} is not there`);
      return found.page;
    },
    async meant(asked) {
      meant.push(asked);
      if (asked.what === 'less-is-kept') state.shrunk = null;
    },
    chooseSecond: async () => {
      state.second = { folder: '/stick', fault: null };
      return '/stick';
    },
    noSecond: async () => void (state.second = null),
  };
  return { host, kept, state, meant, otherNames, furtherNames };
}
