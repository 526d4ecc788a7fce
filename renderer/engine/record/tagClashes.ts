import type { Item } from '../../../shared-types/records/item.ts';
import type { FrozenThing, Revision } from '../../../shared-types/records/revision.ts';

/** A label number that names one thing in a manifest from another copy of the program, and another thing here. */
export interface TagClash {
  tag: number;
  theirs: Pick<FrozenThing, 'id' | 'name' | 'kind'>;
  ours: { code: string; name: string; where: string };
}

/**
 * Label numbers of a manifest from another copy that are another thing's here. Two things are one where they have the same key, or the
 * same code and kind.
 *
 * @param incoming - the manifest's key and things
 * @param kept.items - the whole catalog, retired things too
 * @param kept.revisions - every frozen manifest
 * @returns each number once, in the manifest's order, with what it names there and here
 */
export function tagClashes(
  incoming: { id: string; things: readonly FrozenThing[] },
  kept: {
    items: readonly Item[];
    revisions: readonly Pick<Revision, 'id' | 'number' | 'called' | 'content' | 'broughtIn'>[];
  },
): TagClash[] {
  const items = new Map(kept.items.flatMap((item) => (item.tag === undefined ? [] : [[item.tag, item]])));
  const frozen = kept.revisions
    .filter(({ id }) => id !== incoming.id)
    .flatMap((revision) => labelledThings(revision).map((thing) => ({ thing, revision })));
  return incoming.things.flatMap((theirs): TagClash[] => {
    const { tag } = theirs;
    if (tag === undefined) return [];
    const item = items.get(tag);
    if (item !== undefined) {
      const isSame = item.id === theirs.record || (item.code === theirs.id && item.kind === theirs.kind);
      const ours = { code: item.code, name: item.name ?? item.code, where: 'in the catalog' };
      return isSame ? [] : [{ tag, theirs, ours }];
    }
    const other = frozen.find(
      ({ thing }) => thing.tag === tag && (thing.id !== theirs.id || thing.kind !== theirs.kind),
    );
    if (other === undefined) return [];
    const { thing, revision } = other;
    const where = `on revision ${revision.number} of ${revision.called}`;
    return [{ tag, theirs, ours: { code: thing.id, name: thing.name, where } }];
  });
}

/**
 * The things of a frozen manifest with the numbers that their labels have here: those it was frozen with, but where it came from another
 * copy and they were given anew.
 *
 * @param revision - as it is kept
 * @returns its things, in their order
 */
export function labelledThings({ content, broughtIn }: Pick<Revision, 'content' | 'broughtIn'>): FrozenThing[] {
  const anew = new Map(broughtIn?.renumbered?.map(({ thing, is }) => [thing, is]));
  return content.things.map((thing) => {
    const tag = anew.get(thing.id) ?? thing.tag;
    return tag === undefined ? thing : { ...thing, tag };
  });
}
