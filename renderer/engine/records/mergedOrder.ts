/** A record with its place, of which only the code and the place matter here. */
interface Placed {
  code: string;
  position: number;
}

/**
 * Where each of two lists' entries stands when one is worked into the other. The leading list keeps its order; what only
 * the other has follows what it follows there.
 *
 * @param here - what is kept, in its order
 * @param file - the file's codes, in its order
 * @param leading - whose order holds where both have an entry
 * @returns the place of every code. Those kept stay where they are unless the order itself changes
 */
export function mergedOrder(
  here: readonly Placed[],
  file: readonly string[],
  leading: 'here' | 'file',
): ReadonlyMap<string, number> {
  const own = here.map(({ code }) => code);
  const codes = leading === 'here' ? workedIn(own, file) : workedIn(file, own);
  const kept = new Map(here.map(({ code, position }) => [code, position]));
  const places = codes.map((code) => kept.get(code));
  const known = places.filter((place) => place !== undefined);
  const grows = known.every((place, index) => index === 0 || place > (known[index - 1] ?? place));
  if (!grows) return new Map(codes.map((code, index) => [code, index + 1]));
  return new Map(codes.map((code, index) => [code, places[index] ?? between(places, index)]));
}

function workedIn(leading: readonly string[], other: readonly string[]): string[] {
  const codes = [...leading];
  let after = -1;
  for (const code of other) {
    const at = codes.indexOf(code);
    if (at >= 0) {
      after = at;
      continue;
    }
    after += 1;
    codes.splice(after, 0, code);
  }
  return codes;
}

/** Evenly between the places before and after a run of new entries. */
function between(places: readonly (number | undefined)[], index: number): number {
  const isPlace = (place: number | undefined) => place !== undefined;
  const before = places.slice(0, index).findLastIndex(isPlace);
  const from = places.slice(index);
  const toNext = from.findIndex(isPlace);
  const [low, high] = [places[before], from[toNext]];
  const nth = index - before;
  if (high === undefined) return (low ?? 0) + nth;
  if (low === undefined) return high - toNext;
  return low + ((high - low) * nth) / (nth + toNext);
}
