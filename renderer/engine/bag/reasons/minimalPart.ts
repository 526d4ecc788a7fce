/**
 * A smallest part of a list for which something still holds: without any one of its members it does not. What holds
 * for a part must hold for all that contain it.
 *
 * The list is halved again and again (each half is reduced with the other one kept), so that a part of k of n members
 * takes in the order of k·log n tests. Of several such parts the one of early members is preferred.
 *
 * @returns null where it does not hold for the whole list
 */
export async function minimalPart<T>(
  list: readonly T[],
  holds: (part: readonly T[]) => Promise<boolean>,
): Promise<T[] | null> {
  if (!(await holds(list))) return null;
  if (await holds([])) return [];
  const reduced = await reduce([], list, holds, false);
  const wanted = new Set(reduced);
  return list.filter((member) => wanted.has(member));
}

/** Members of `list` that are needed beside `kept`; `added`: whether `kept` grew since it was last tested. */
async function reduce<T>(
  kept: readonly T[],
  list: readonly T[],
  holds: (part: readonly T[]) => Promise<boolean>,
  added: boolean,
): Promise<T[]> {
  if (added && (await holds(kept))) return [];
  if (list.length <= 1) return [...list];
  const middle = Math.ceil(list.length / 2);
  const [early, late] = [list.slice(0, middle), list.slice(middle)];
  const fromLate = await reduce([...kept, ...early], late, holds, true);
  const fromEarly = await reduce([...kept, ...fromLate], early, holds, fromLate.length > 0);
  return [...fromEarly, ...fromLate];
}

/**
 * The members for each of which alone something holds. A list for which it does not hold has none, so halves that fail
 * are not looked into.
 */
export async function eachAlone<T>(list: readonly T[], holds: (part: readonly T[]) => Promise<boolean>): Promise<T[]> {
  if (list.length === 0 || !(await holds(list))) return [];
  if (list.length === 1) return [...list];
  const middle = Math.ceil(list.length / 2);
  return [...(await eachAlone(list.slice(0, middle), holds)), ...(await eachAlone(list.slice(middle), holds))];
}
