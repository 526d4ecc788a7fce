/**
 * Which of the things that two lists share stand in another order: the fewest that would have to be moved. What one list has more
 * moves nothing.
 *
 * @param was - the first list, each name once
 * @param is - the second
 * @returns names of those out of order, the same whichever list is given first
 */
export function outOfOrder(was: readonly string[], is: readonly string[]): Set<string> {
  // Of several longest runs the same one must be found either way round, so that the order of the arguments does not count.
  const [one, other] = JSON.stringify(was) <= JSON.stringify(is) ? [was, is] : [is, was];
  const place = new Map(other.map((name, index) => [name, index]));
  const shared = one.filter((name) => place.has(name));
  const at = (name: string): number => place.get(name) ?? -1;
  // Longest run that grows: `ends[k]` is the last of the best run of k + 1, `before` what stands before each in its run.
  const ends: string[] = [];
  const before = new Map<string, string | undefined>();
  for (const name of shared) {
    let low = 0;
    let high = ends.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (at(ends[middle] ?? '') < at(name)) low = middle + 1;
      else high = middle;
    }
    before.set(name, ends[low - 1]);
    ends[low] = name;
  }
  const stays = new Set<string>();
  for (let name = ends.at(-1); name !== undefined; name = before.get(name)) stays.add(name);
  return new Set(shared.filter((name) => !stays.has(name)));
}
