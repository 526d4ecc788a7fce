import type { Item } from '../../../shared-types/records/item.ts';
import type { FrozenThing } from '../../../shared-types/records/revision.ts';

/**
 * Codes by the number on a label: as the manifest has them, and as the catalog gave them since. A thing of another shelf is called by its shelf too,
 * so that it never passes for the one that is packed.
 */
export function tagsKnown(things: readonly FrozenThing[], items: Iterable<Item>): ReadonlyMap<number, string> {
  const byRecord = new Map(things.flatMap(({ record, id }) => (record === undefined ? [] : [[record, id]])));
  const codes = new Set(things.map(({ id }) => id));
  const tags = new Map<number, string>();
  for (const { id, code, tag } of items) {
    if (tag === undefined) continue;
    tags.set(tag, byRecord.get(id) ?? (codes.has(code) ? `${code} of another shelf` : code));
  }
  for (const { id, tag } of things) if (tag !== undefined) tags.set(tag, id);
  return tags;
}
