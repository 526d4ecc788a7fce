/** How many of each piece, by id. */
export type Counts = ReadonlyMap<string, number>;

/** Each id as often as it is named. */
export function countsOf(ids: readonly string[]): Counts {
  return addedUp(ids.map((id) => new Map([[id, 1]])));
}

/** All of them together. */
export function addedUp(all: readonly Counts[]): Counts {
  return merged(all, (a, b) => a + b);
}

/** Of each the most that any one of them has. */
export function mostOf(all: readonly Counts[]): Counts {
  return merged(all, (a, b) => Math.max(a, b));
}

function merged(all: readonly Counts[], join: (a: number, b: number) => number): Counts {
  const counts = new Map<string, number>();
  for (const one of all) {
    for (const [id, count] of one) {
      const known = counts.get(id);
      counts.set(id, known === undefined ? count : join(known, count));
    }
  }
  return counts;
}
