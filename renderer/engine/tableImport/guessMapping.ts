import type { Unit } from '../units/index.ts';
import { bareName, nameAndUnit } from './nameAndUnit.ts';
import type { ImportColumn, ImportTarget } from './importTarget.ts';

/** What one column of a file feeds. */
export interface Feed {
  /** A column of ours; null where nothing reads it, and it is kept as it is. */
  column: string | null;
  /** The unit its bare numbers are in, as its header says. */
  unit: Unit | null;
}

/** One for each column of the file, in its order. */
export type Mapping = readonly Feed[];

export interface Guess {
  mapping: Mapping;
  /** What could not be told, by the column's place. */
  doubts: ReadonlyMap<number, string>;
}

/**
 * Which column of a file feeds which of ours, by their names alone. A name that fits two of the file's columns is given to neither.
 *
 * @param names - the file's header
 */
export function guessMapping(names: readonly string[], target: ImportTarget): Guess {
  const byName = new Map<string, ImportColumn>();
  for (const column of target.columns) {
    byName.set(bareName(column.name), column);
    for (const alias of column.aliases) if (!byName.has(bareName(alias))) byName.set(bareName(alias), column);
  }
  for (const column of target.columns) byName.set(bareName(column.name), column);
  const doubts = new Map<number, string>();
  const feeds = names.map((header, at): Feed & { isOwn: boolean } => {
    const read = nameAndUnit(header, (bare) => byName.has(bare));
    const column = byName.get(bareName(read.name));
    if (column === undefined) return { column: null, unit: null, isOwn: false };
    const isOwn = bareName(read.name) === bareName(column.name);
    if (read.doubt !== null) doubts.set(at, `What stands behind its name is no unit: ${read.doubt}`);
    if (read.unit === null) return { column: column.name, unit: null, isOwn };
    if (column.unitKind === read.kind) return { column: column.name, unit: read.unit, isOwn };
    doubts.set(
      at,
      `Its header says ${read.unit}, a unit of ${read.kind}; ${column.name} takes ${column.unitKind === undefined ? 'none' : `one of ${column.unitKind}`}.`,
    );
    return { column: column.name, unit: null, isOwn };
  });
  const mapping = feeds.map(({ column, unit, isOwn }, at): Feed => {
    if (column === null) return { column, unit };
    const rivals = feeds.filter((feed, other) => other !== at && feed.column === column);
    if (rivals.length === 0 || (isOwn && rivals.every((rival) => !rival.isOwn))) return { column, unit };
    doubts.set(at, `Another column may be ${column} as well: say which of them is.`);
    return { column: null, unit: null };
  });
  return { mapping, doubts };
}

/** What a mapping still lacks, in words; null where nothing. */
export function mappingFault(mapping: Mapping, target: ImportTarget): string | null {
  const fed = mapping.flatMap(({ column }) => (column === null ? [] : [column]));
  const twice = fed.find((name, at) => fed.indexOf(name) !== at);
  if (twice !== undefined) return `${twice} is fed by two columns: one is taken.`;
  const missing = target.needed.map((set) => set.filter((name) => !fed.includes(name)));
  const fewest = missing.toSorted((a, b) => a.length - b.length)[0] ?? [];
  if (fewest.length === 0) return null;
  const sets = target.needed.map((set) => set.join(', ')).join('; or ');
  return `${fewest.join(', ')} ${fewest.length === 1 ? 'is' : 'are'} fed by no column. Needed are: ${sets}.`;
}

/** What a header set is remembered by: its names in any order, bare. */
export function headerSign(names: readonly string[]): string {
  return names.map(bareName).toSorted().join('|');
}
