import { drawsOf } from '../../chance/draws.ts';
import type { CoverTable, TableFlow, TableGroup } from '../search/coverTable.ts';
import { isServed } from '../search/isServed.ts';
import { servesTogether } from './together.ts';

/** How many pieces at most, of each item by its number, still do not serve a group. */
export type Unserving = Int32Array;

/** So many different ones are looked for. */
const orders = 3;
/** Where pieces are used beside each other, looking takes much longer. */
const ordersBeside = 1;

/**
 * Largest bags that do not serve groups at one time which `have` does not serve either. Whatever serves them has more
 * of some item than each of these, so each is a cut that all bags meet and `have` does not.
 */
export function unserving(groups: readonly TableGroup[], table: CoverTable, have: Int32Array): Unserving[] {
  const roll = drawsOf(1).uniform;
  const cost = (piece: number): number => table.cost[piece] ?? 0;
  const pieces = piecesOf(groups);
  const byCost = pieces.toSorted((a, b) => cost(a) - cost(b) || a - b);
  const shuffled = pieces.map((piece) => ({ piece, at: roll() })).toSorted((a, b) => a.at - b.at);
  const all = [byCost, byCost.toReversed(), shuffled.map(({ piece }) => piece)];
  const beside = groups.length > 1 || groups.some(({ hold }) => hold);
  return all.slice(0, beside ? ordersBeside : orders).map((order) => filled(groups, table, have, order));
}

function filled(
  groups: readonly TableGroup[],
  table: CoverTable,
  have: Int32Array,
  order: readonly number[],
): Unserving {
  const bag = Int32Array.from(have);
  const [first] = groups;
  const supply = { have: bag, used: new Int32Array(bag.length) };
  // What cannot be said is taken for served: the bag stays smaller, and still does not serve.
  const serves = (): boolean =>
    groups.length === 1 && first && !first.hold ? isServed(first.main, supply) : servesTogether(groups, bag) !== false;
  for (const piece of order) {
    const before = bag[piece] ?? 0;
    for (let count = table.most[piece] ?? 0; count > before; count -= 1) {
      bag[piece] = count;
      if (!serves()) break;
      bag[piece] = before;
    }
  }
  return bag;
}

/** Items that some stack or hold of the groups uses. */
export function piecesOf(groups: readonly TableGroup[]): number[] {
  return [...new Set(groups.flatMap(({ main, hold }) => [main, ...(hold ? [hold] : [])]).flatMap(piecesOfFlow))];
}

function piecesOfFlow({ ladders, joints }: TableFlow): number[] {
  return [
    ...joints.flat(),
    ...ladders.flatMap(({ rungs, chains }) => [
      ...rungs.flat(),
      ...chains.flatMap(({ links }) => links.flatMap(({ pieces }) => pieces)),
    ]),
  ];
}
