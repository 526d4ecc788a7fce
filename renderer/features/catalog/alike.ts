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
  /** The shelves that have a code. */
  shelvesOf: ReadonlyMap<string, readonly string[]>;
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
  const shelvesOf = new Map<string, string[]>();
  for (const [at, item] of all.entries()) {
    const shelves = shelvesOf.get(item.code);
    if (shelves === undefined) shelvesOf.set(item.code, [item.shelf]);
    else if (!shelves.includes(item.shelf)) shelves.push(item.shelf);
    if (item.retired) continue;
    const shelf = byShelf.get(item.shelf) ?? new Map<string, AlikeItems>();
    byShelf.set(item.shelf, shelf);
    const key = keyOf(item);
    const group = shelf.get(key);
    if (group === undefined) shelf.set(key, { first: item, places: [at] });
    else group.places.push(at);
  }
  const groups = new Map([...byShelf].map(([shelf, own]) => [shelf, [...own.values()]] as const));
  const made = { all, groups, shelvesOf };
  known.set(items, made);
  return made;
}

/** Makes it while the hand rests, before it is asked for. @returns what calls that off */
export function prepareAlike(items: ReadonlyMap<string, Item>): () => void {
  const id = requestIdleCallback(() => alikeItems(items));
  return () => cancelIdleCallback(id);
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
