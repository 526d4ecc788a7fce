import type { FrozenLine } from '../../../shared-types/records/revision.ts';

/** So many pieces in a bag. */
export interface Lying {
  bag: string;
  quantity: number;
}

/** One thing of an outing that lies otherwise, is more, or is less. */
export interface LineChange {
  outing: string;
  item: string;
  /** `reason`: the same pieces in the same place, needed by other steps or laid in another pocket. */
  kind: 'added' | 'gone' | 'quantity' | 'moved' | 'reason';
  /** Of a line that moved, the pieces that did, and from where; else the whole line. */
  was: Lying | null;
  is: Lying | null;
  /** How many more pieces the bag holds (fewer: below 0); of a line that moved, how many moved. */
  pieces: number;
  /** What else the line says otherwise. */
  words: { was: string; is: string } | null;
}

/**
 * Lines of two manifests held against each other, outing by outing and thing by thing. Pieces that one bag has fewer and another has more
 * have moved; what is left over has come or gone. Taking every change in turn to the first manifest gives the second.
 *
 * @param was - lines of the first
 * @param is - lines of the second
 * @returns what changed, in order of the second's lines, then of what only the first has; and how many lines are the same
 */
export function lineChanges(
  was: readonly FrozenLine[],
  is: readonly FrozenLine[],
): { changes: LineChange[]; same: number } {
  const groups = new Map<string, { before: FrozenLine[]; after: FrozenLine[] }>();
  const groupOf = ({ outing, item }: FrozenLine): { before: FrozenLine[]; after: FrozenLine[] } => {
    const key = JSON.stringify([outing, item]);
    const known = groups.get(key) ?? { before: [], after: [] };
    groups.set(key, known);
    return known;
  };
  for (const line of is) groupOf(line).after.push(line);
  for (const line of was) groupOf(line).before.push(line);
  const changes: LineChange[] = [];
  let same = 0;
  for (const { before, after } of groups.values()) {
    const found = changesOfItem(before, after);
    changes.push(...found);
    const touched = new Set(found.flatMap((one) => [one.was?.bag, one.is?.bag]));
    same += after.filter(({ bag }) => !touched.has(bag)).length;
  }
  return { changes, same };
}

function changesOfItem(before: readonly FrozenLine[], after: readonly FrozenLine[]): LineChange[] {
  const [first] = [...after, ...before];
  if (first === undefined) return [];
  const named = { outing: first.outing, item: first.item };
  const bags = [...new Set([...after, ...before].map(({ bag }) => bag))];
  const held = (lines: readonly FrozenLine[], bag: string): number =>
    lines.reduce((sum, line) => sum + (line.bag === bag ? line.quantity : 0), 0);
  const gaining = bags
    .map((bag) => ({ bag, left: held(after, bag) - held(before, bag) }))
    .filter(({ left }) => left !== 0);
  const changes: LineChange[] = [];
  for (const from of gaining) {
    for (const to of gaining) {
      const pieces = Math.min(-from.left, to.left);
      if (pieces <= 0) continue;
      from.left += pieces;
      to.left -= pieces;
      const lying = (bag: string): Lying => ({ bag, quantity: pieces });
      changes.push({ ...named, kind: 'moved', was: lying(from.bag), is: lying(to.bag), pieces, words: null });
    }
  }
  for (const { bag, left } of gaining) {
    if (left === 0) continue;
    const [was, is] = [held(before, bag), held(after, bag)];
    changes.push({
      ...named,
      kind: was === 0 ? 'added' : is === 0 ? 'gone' : 'quantity',
      was: was === 0 ? null : { bag, quantity: was },
      is: is === 0 ? null : { bag, quantity: is },
      ...{ pieces: left, words: null },
    });
  }
  const told = new Set(changes.flatMap((one) => [one.was?.bag, one.is?.bag]));
  for (const line of after) {
    const old = before.find(({ bag }) => bag === line.bag);
    if (old === undefined || told.has(line.bag)) continue;
    const [was, is] = [wordsOf(old), wordsOf(line)];
    const lying = { bag: line.bag, quantity: line.quantity };
    if (was !== is) changes.push({ ...named, kind: 'reason', was: lying, is: lying, pieces: 0, words: { was, is } });
  }
  return changes;
}

function wordsOf({ because, pocket, apart = [] }: FrozenLine): string {
  const steps = because.length === 0 ? 'for no step' : `for ${because.join(', ')}`;
  const others = apart.map((one) => `${one.pieces} in ${one.pocket}`).join(', ');
  const lies = pocket === undefined ? steps : `${steps}; in ${pocket}`;
  return others === '' ? lies : `${lies}, ${others}`;
}
