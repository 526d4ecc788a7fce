/** A field in which two versions of a record differ. */
export interface Difference {
  path: string;
  mine: unknown;
  kept: unknown;
}

type Fields = Readonly<Record<string, unknown>>;

const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Every single field with its path; lists are one field each. */
function leaves(value: Fields, before = ''): [string, unknown][] {
  return Object.entries(value).flatMap(([name, inner]): [string, unknown][] =>
    isFields(inner) ? leaves(inner, `${before}${name}.`) : [[`${before}${name}`, inner]],
  );
}

/** Key and revision are the program's own: no person chooses between them. */
const ownFields = new Set(['id', 'rev']);

/** The fields that differ, those of the draft first, in its order. */
export function differences(mine: Fields, kept: Fields): Difference[] {
  const ofMine = new Map(leaves(mine));
  const ofKept = new Map(leaves(kept));
  return [...new Set([...ofMine.keys(), ...ofKept.keys()])]
    .filter((path) => !ownFields.has(path))
    .filter((path) => JSON.stringify(ofMine.get(path)) !== JSON.stringify(ofKept.get(path)))
    .map((path) => ({ path, mine: ofMine.get(path), kept: ofKept.get(path) }));
}
