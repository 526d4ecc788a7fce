/** Which snapshots have had their time: the last twenty stay, one a day for fourteen days, one a week for eight, the last twenty from before a large change, and all from before everything became another. */
import { keptForEver, readSnapshotName } from '../../../shared-types/snapshot.ts';

const keep = { last: 20, days: 14, weeks: 8, beforeLarge: 20 };
/** They may come many a day, and each is as large as all that is kept. */
const beforeLarge = new Set<string>(['before-deletion', 'before-large-change']);
const dayMs = 86_400_000;

/**
 * Those that go further than the journal are of one that was there before it: beside them its own would all be old.
 *
 * @param seq - the journal's last entry
 * @returns names that may go, of those given; a name that is none of ours never does
 */
export function pastTheirTime(names: readonly string[], seq: number): string[] {
  const isFurther = (name: string): boolean => (readSnapshotName(name)?.seq ?? 0) > seq;
  return [...ofOneJournal(names.filter((name) => !isFurther(name))), ...ofOneJournal(names.filter(isFurther))];
}

function ofOneJournal(names: readonly string[]): string[] {
  const known = names
    .flatMap((name) => {
      const read = readSnapshotName(name);
      return read === null ? [] : [{ name, ...read }];
    })
    // By what they hold, not by the clock, which may have gone back.
    .toSorted((one, other) => other.seq - one.seq || (one.name < other.name ? 1 : -1));
  const stays = new Set([
    ...known.slice(0, keep.last).map(({ name }) => name),
    ...known.filter(({ why }) => keptForEver.has(why)).map(({ name }) => name),
    ...known
      .filter(({ why }) => beforeLarge.has(why))
      .slice(0, keep.beforeLarge)
      .map(({ name }) => name),
    ...newestOfEach(known, keep.days, ({ utc }) => utc.slice(0, 10)),
    ...newestOfEach(known, keep.weeks, ({ utc }) => weekOf(utc)),
  ]);
  return known.flatMap(({ name }) => (stays.has(name) ? [] : [name]));
}

/** The newest of each of the last so many days or weeks that have any. */
function newestOfEach<S extends { name: string }>(
  newestFirst: readonly S[],
  most: number,
  of: (one: S) => string,
): string[] {
  const newest = new Map<string, string>();
  for (const one of newestFirst) {
    const key = of(one);
    if (newest.has(key)) continue;
    if (newest.size === most) break;
    newest.set(key, one.name);
  }
  return [...newest.values()];
}

/** Weeks from Monday on; 1970-01-01 was a Thursday. */
function weekOf(utc: string): string {
  return String(Math.floor((Date.parse(utc) / dayMs + 3) / 7));
}
