/** Snapshots that go further than the journal: of one that was there before it, or of more of the same. */
import {
  readSnapshotName,
  totalOfCounts,
  type FurtherSnapshots,
  type MeantThing,
} from '../../../shared-types/snapshot.ts';
import type { SnapshotBase } from './format.ts';
import type { FurtherFile } from './notes.ts';

/** A journal's last entry, and a way to any of those before it. */
export interface EndOfJournal {
  seq: number;
  deviceId: string;
  /** Null where there is no such entry. */
  hashAt: (seq: number) => Promise<string | null>;
}

export interface FurtherAround {
  /** Names of all snapshots; of those of the second folder too, where nothing else is left. */
  names: (withSecond: boolean) => Promise<string[]>;
  /** Null where it cannot be gone by. */
  read: (name: string) => Promise<SnapshotBase | null>;
  noted: FurtherFile;
}

export interface FurtherKeeper {
  /** @param note - write down which they are: a journal that goes on without them comes past their numbers */
  find(end: EndOfJournal, note: boolean): Promise<FurtherSnapshots | null>;
  meant(
    end: Omit<EndOfJournal, 'hashAt'>,
    through?: Extract<MeantThing, { through?: unknown }>['through'],
  ): Promise<void>;
}

export function furtherKeeper({ names, read, noted }: FurtherAround): FurtherKeeper {
  /** The furthest first. */
  const notMeant = async ({ seq, deviceId }: Omit<EndOfJournal, 'hashAt'>): Promise<string[]> => {
    const { found, meant } = await noted.get({ seq, deviceId });
    // Others may copy to the second folder too.
    const all = await names(seq === 0);
    const isIn = (name: string): boolean => (seqOf(name) > seq || found.includes(name)) && !meant.includes(name);
    return [...new Set(all)].filter(isIn).toSorted(byEntryThenTime);
  };

  return {
    async find(end, note) {
      const { seq, hashAt } = end;
      const further: string[] = [];
      const damaged: string[] = [];
      let whole: FurtherSnapshots['whole'] = null;
      for (const name of await notMeant(end)) {
        const isPassed = seqOf(name) <= seq;
        if (whole !== null && !isPassed) {
          further.push(name);
          continue;
        }
        const snapshot = await read(name);
        // The journal that it was made of is back.
        if (isPassed && snapshot !== null && (await hashAt(snapshot.head.seq)) === snapshot.head.hash) continue;
        further.push(name);
        if (whole !== null) continue;
        if (snapshot === null) damaged.push(name);
        else whole = wholeOf(name, snapshot);
      }
      const { found, meant } = await noted.get(end);
      // What cannot be noted, on a full disk, is told of all the same.
      if (note && further.join('/') !== found.join('/'))
        await noted.set(end, { found: further, meant }).catch(() => undefined);
      const [furthest] = damaged;
      const lost = furthest === undefined ? null : { count: damaged.length, seq: seqOf(furthest) };
      return whole === null && lost === null ? null : { whole, damaged: lost };
    },
    async meant(end, through = Number.POSITIVE_INFINITY) {
      const further = await notMeant(end);
      const { meant } = await noted.get(end);
      const isLeft = (name: string): boolean => seqOf(name) > through;
      await noted.set(end, {
        found: further.filter(isLeft),
        meant: [...meant, ...further.filter((name) => !isLeft(name))],
      });
    },
  };
}

function wholeOf(name: string, { head: { utc, seq, counts } }: SnapshotBase): FurtherSnapshots['whole'] {
  return { name, utc, seq, records: totalOfCounts(counts) };
}

export function byEntryThenTime(one: string, next: string): number {
  return seqOf(next) - seqOf(one) || (one < next ? 1 : -1);
}

export function seqOf(name: string): number {
  return readSnapshotName(name)?.seq ?? 0;
}
