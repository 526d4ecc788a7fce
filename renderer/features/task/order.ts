/** Where records stand among their kind. Positions are numbers with room between, so that moving one changes one record. */

export interface Placed {
  id: string;
  position: number;
}

const gap = 1024;
/** Closer than this two positions no longer take one between them without losing digits. */
const leastGap = 2 ** -20;

/**
 * Positions for some records between two neighbours.
 *
 * @param lower - position of the record before; null where there is none
 * @param upper - position of the record after; null where there is none
 * @returns rising positions, one for each; null where there is no room between
 */
export function positionsBetween(lower: number | null, upper: number | null, count: number): number[] | null {
  const step =
    lower !== null && upper !== null ? Math.min((upper - lower) / (count + 1), lower === upper ? 0 : gap) : gap;
  if (step < leastGap) return null;
  const first = lower !== null ? lower + step : upper !== null ? upper - count * step : gap;
  return Array.from({ length: count }, (_, index) => first + index * step);
}

/** New positions for a whole sequence; only those that differ from what they are. */
export function renumbered(sequence: readonly Placed[]): Map<string, number> {
  const changed = new Map<string, number>();
  for (const [index, { id, position }] of sequence.entries()) {
    const wanted = (index + 1) * gap;
    if (position !== wanted) changed.set(id, wanted);
  }
  return changed;
}

/**
 * What must change so that a list stands in the order given.
 *
 * @param groups - all records in the order they shall have, under their headings; a list without headings is one group
 * @param moving - keys of those that were moved, standing side by side; the others keep their positions if they can
 * @returns the new positions by key
 */
export function positionsFor(groups: readonly (readonly Placed[])[], moving: ReadonlySet<string>): Map<string, number> {
  const at = groups.findIndex((group) => group.some(({ id }) => moving.has(id)));
  const wanted = groups[at];
  if (wanted === undefined) return new Map();
  const first = wanted.findIndex(({ id }) => moving.has(id));
  const staying = wanted.filter(({ id }) => !moving.has(id));
  const rising = staying.every((row, index) => index === 0 || (staying[index - 1]?.position ?? 0) < row.position);
  const others = { before: groups.slice(0, at).flat(), all: groups.flat().filter(({ id }) => !moving.has(id)) };
  const ownUpper = wanted[first + moving.size]?.position ?? null;
  const lower = wanted[first - 1]?.position ?? lastOf(others.before, ownUpper);
  const upper = ownUpper ?? firstAbove(others.all, lower);
  const places = rising ? positionsBetween(lower, upper, moving.size) : null;
  if (places === null) return renumbered(groups.flat());
  const moved = wanted.slice(first, first + moving.size);
  return new Map(moved.flatMap(({ id }, index) => (places[index] === undefined ? [] : [[id, places[index]]])));
}

/** At the head of its heading a record still comes after those of the headings before. */
function lastOf(before: readonly Placed[], upper: number | null): number | null {
  let last: number | null = null;
  for (const { position } of before)
    if ((upper === null || position < upper) && (last === null || position > last)) last = position;
  return last;
}

/** At the end of its heading it still comes before those of the next one. */
function firstAbove(all: readonly Placed[], lower: number | null): number | null {
  let next: number | null = null;
  for (const { position } of all)
    if ((lower === null || position > lower) && (next === null || position < next)) next = position;
  return next;
}
