/**
 * Items of a shelf in groups within which sizes, heads, threads and squares are the same words: what fits one of a group fits all of it. Of a
 * depot's many thousand items there are few such groups, so that each is judged once.
 */
import type { Item } from '../../../shared-types/records/item.ts';

export interface AlikeItems {
  /** Any of them: the others are judged as it is. */
  first: Item;
  /** Their places in `ItemsInOrder.all`, ascending. */
  places: number[];
}

export interface ItemsInOrder {
  all: readonly Item[];
  /** Of each shelf, without what is retired. */
  groups: ReadonlyMap<string, readonly AlikeItems[]>;
}

const known = new WeakMap<ReadonlyMap<string, Item>, ItemsInOrder>();
/** Made once for each version of an item. */
const keys = new WeakMap<Item, string>();

/** Made once for each state of the table. */
export function alikeItems(items: ReadonlyMap<string, Item>): ItemsInOrder {
  const before = known.get(items);
  if (before !== undefined) return before;
  const all = [...items.values()];
  const byShelf = new Map<string, Map<string, AlikeItems>>();
  for (const [at, item] of all.entries()) {
    if (item.retired) continue;
    const shelf = byShelf.get(item.shelf) ?? new Map<string, AlikeItems>();
    byShelf.set(item.shelf, shelf);
    const key = keyOf(item);
    const group = shelf.get(key);
    if (group === undefined) shelf.set(key, { first: item, places: [at] });
    else group.places.push(at);
  }
  const made = { all, groups: new Map([...byShelf].map(([shelf, groups]) => [shelf, [...groups.values()]] as const)) };
  known.set(items, made);
  return made;
}

function keyOf(item: Item): string {
  const held = keys.get(item);
  if (held !== undefined) return held;
  const key = [item.kind, ...sizesOf(item)].join('\n');
  keys.set(item, key);
  return key;
}

/** All that the questions what goes together and what is near look at. */
function sizesOf(item: Item): string[] {
  switch (item.kind) {
    case 'socket':
      return [item.drive, item.opening.form, item.opening.size];
    case 'fastener':
      return [item.thread, item.head.form, item.head.acrossFlats];
    case 'extension':
      return [item.driveIn, item.driveOut];
    case 'driver':
    case 'torque-tool':
      return [item.drive];
    default:
      return [];
  }
}
