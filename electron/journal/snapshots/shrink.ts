/** Far less than there was: then nothing is cleared away until a person has said that it is meant. */
import { tableNames } from '../../../shared-types/records/index.ts';
import { totalOfCounts, type SnapshotList } from '../../../shared-types/snapshot.ts';

type Counts = Readonly<Record<string, number>>;

/** The whole may fall by a fifth. */
const leastShare = 0.8;

/** What the window keeps for itself comes and goes. */
const passing = new Set(['results', 'preferences']);

/** @returns by how much it has shrunk and which tables are empty now; null where it has not by much */
export function shrinkOf(before: Counts, now: Counts): SnapshotList['shrunk'] {
  const emptied = tableNames.filter((name) => !passing.has(name) && (before[name] ?? 0) > 0 && (now[name] ?? 0) === 0);
  const [from, to] = [totalOfCounts(before), totalOfCounts(now)];
  return emptied.length === 0 && to >= leastShare * from ? null : { from, to, tables: emptied };
}
