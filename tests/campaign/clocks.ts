/** F11: the clock jumps: by years, by an hour, to the ends of what clocks can say. The journal goes by its sequence alone. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { readSnapshot } from '../../electron/journal/snapshots/format.ts';
import { snapshotKeeper } from '../../electron/journal/snapshots/keeper.ts';
import { calibrationState } from '../../renderer/features/catalog/calibrationState.ts';
import type { Item } from '../../shared-types/records/item.ts';
import type { Dice } from '../reference/dice.ts';
import { must, mustEqual, type Part } from './part.ts';
import { scratch } from './support/scratch.ts';
import { shelfJournal } from './support/shelves.ts';

const [hourMs, yearMs] = [3_600_000, 365 * 86_400_000];
/** Summer time of most of Europe ended that night (EU directive 2000/84/EC: last Sunday in October, at 1:00 UTC); no such rule is used here. */
const startMs = Date.UTC(2031, 9, 26, 0, 30);

/** Where the clock stands next, seen from where it stood. */
const jumps: ((beforeMs: number) => number)[] = [
  (ms) => ms - yearMs,
  (ms) => ms + yearMs,
  (ms) => ms - hourMs,
  (ms) => ms + hourMs,
  (ms) => ms,
  (ms) => ms + 1,
  () => 0,
  () => Date.UTC(2038, 0, 19, 3, 14, 7) + 1000,
  () => Date.UTC(2100, 0, 1),
  () => startMs,
];

interface Ticked {
  utc: string;
  tzOffset: number;
}

function ticks(chance: Dice, count: number): Ticked[] {
  const all: Ticked[] = [];
  let ms = startMs;
  for (let at = 0; at < count; at += 1) {
    ms = chance.chance(0.4) ? chance.pick(jumps)(ms) : ms + chance.whole(0, 90_000);
    // The offset of the day and of the night before: it changes no order.
    all.push({ utc: new Date(ms).toISOString(), tzOffset: chance.pick([60, 120, -300, 0]) });
  }
  return all;
}

const wentBack = (all: readonly Ticked[]): boolean[] =>
  all.map(({ utc }, at) => at > 0 && Date.parse(utc) < Date.parse(all[at - 1]?.utc ?? ''));

export const clockJumps: Part = {
  of: 'F11',
  fault:
    'the clock jumps by hours and years, to 1970, past 2038-01-19 and to 2100, in the middle of a session and between two',
  trials: 60,
  open() {
    const own = scratch();
    return {
      async trial(_n, chance) {
        const within = own.folder();
        const count = chance.whole(12, 40);
        const all = ticks(chance, count);
        const left = [...all];
        const next = (): Ticked => left.shift() ?? { utc: '2031-01-01T00:00:00.000Z', tzOffset: 0 };
        let journal = shelfJournal(within, { clock: next });
        await journal.open();
        const again = chance.whole(2, count - 1);
        for (let seq = 1; seq <= count; seq += 1) {
          if (seq === again) {
            journal.close();
            journal = shelfJournal(within, { clock: next });
            await journal.open();
          }
          await journal.add(seq);
        }
        const { seq, damage, tail, recent } = await journal.open();
        mustEqual([seq, damage, tail], [count, null, null], 'lost', 'the journal');
        mustEqual(
          recent.map((head) => head.seq),
          all.map((_, at) => at + 1),
          'broken',
          'the order',
        );
        // Kept as it was claimed: none is mended.
        mustEqual(
          recent.map(({ utc, tzOffset }) => ({ utc, tzOffset })),
          all,
          'lost',
          'what the clock claimed',
        );
        mustEqual(
          recent.map(({ clockWentBack }) => clockWentBack),
          wentBack(all),
          'undetected',
          'clocks that went back',
        );
        await snapshotsGoBySequence(journal, within, chance);
        journal.close();
      },
      close: () => own.clear(),
    };
  },
};

/** With any clock the newest twenty by what they hold stay, and the last made is the one that is gone on from. */
async function snapshotsGoBySequence(
  journal: ReturnType<typeof shelfJournal>,
  within: string,
  chance: Dice,
): Promise<void> {
  const folder = join(within, 'snapshots');
  const clocks = ticks(chance, 30);
  const keeper = snapshotKeeper({
    folder,
    journal: () => journal.standing(),
    clock: () => clocks.shift() ?? { utc: '2031-01-01T00:00:00.000Z', tzOffset: 0 },
  });
  const made: number[] = [];
  for (let turn = 0; turn < 6; turn += 1) {
    const { seq } = await journal.standing();
    await journal.add(seq + 1);
    const one = await keeper.make('half-hour');
    made.push(one?.seq ?? -1);
  }
  const { snapshots } = await keeper.list();
  mustEqual(
    snapshots.map(({ seq }) => seq),
    made.toReversed(),
    'lost',
    'snapshots, the newest first by what they hold',
  );
  for (const { name, seq } of snapshots) {
    const read = readSnapshot(readFileSync(join(folder, name)));
    must(!('reason' in read) && read.head.seq === seq, 'lost', `${name} is not whole`);
  }
}

/** A day is judged anew by whatever day it is said to be, and nothing of the record changes. */
export const calibrationDays: Part = {
  of: 'F11',
  fault: 'calibration days judged on days before, on and after them, from 1970 to 2100',
  trials: 200,
  open: () => ({
    trial(_n, chance) {
      const day = (): string => new Date(chance.whole(0, 47_481) * 86_400_000).toISOString().slice(0, 10);
      const [due, today] = [day(), chance.chance(0.2) ? null : day()];
      const tool = Object.freeze({ kind: 'torque-tool', calibrationDue: due }) as unknown as Item;
      const on = today ?? due;
      // Days as texts are in order as texts: no arithmetic of the program is used.
      const state = calibrationState(tool, on);
      mustEqual(state === 'overdue', on > due, 'undetected', `due ${due}, judged on ${on}: ${state}`);
      must(on !== due || state === 'due', 'broken', `on its day: ${state}`);
    },
  }),
};
