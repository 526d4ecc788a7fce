/** Which rows are chosen together, beside the one in hand. */

export interface Choice {
  chosen: ReadonlySet<string>;
  /** Ids of the rows that can be taken in hand, in order. */
  ids: readonly string[];
}

/** From one row to another, both included, in either direction. */
export function chosenRange({ ids }: Choice, fromId: string, toId: string): ReadonlySet<string> {
  const from = ids.indexOf(fromId);
  const to = ids.indexOf(toId);
  if (from === -1 || to === -1) return new Set([toId]);
  return new Set(ids.slice(Math.min(from, to), Math.max(from, to) + 1));
}

export function chosenToggled({ chosen }: Choice, id: string): ReadonlySet<string> {
  const next = new Set(chosen);
  if (!next.delete(id)) next.add(id);
  return next;
}
