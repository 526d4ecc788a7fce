import type { Carried, ResolvedBag } from '../plan/resolved.ts';
import type { Costs } from './model/costs.ts';
import type { Solution } from './model/integerProgram.ts';
import type { BagModel } from './model/lying.ts';
import type { OutingWork } from './outingWork.ts';
import type { Covering } from './search/covering.ts';

/** So many of an item in a bag. */
export interface Content {
  item: Carried;
  bag: ResolvedBag;
  quantity: number;
}

/** An answer with its cost. */
export interface Known {
  contents: Content[];
  cost: number;
}

/** What lies where, by the values of the columns. */
export function contentsOf(model: BagModel, at: (column: number) => number): Content[] {
  return model.lying.flatMap(({ item, bag, column }) => {
    const quantity = at(column);
    return quantity > 0 ? [{ item, bag, quantity }] : [];
  });
}

/**
 * What lies where in a solution.
 *
 * @returns null where the solver found none
 */
export function readContents(model: BagModel, { columns }: Pick<Solution, 'columns'>): Content[] | null {
  if (!columns) return null;
  return contentsOf(model, (column) => {
    const value = columns[column];
    if (value === undefined) throw new Error(`the solution has no column ${column}`);
    return value;
  });
}

/** The cheaper of the two. */
export function better(known: Known | null, contents: Content[], { ofItem, ofBag }: Costs): Known {
  const bags = [...new Set(contents.map(({ bag }) => bag))];
  const cost =
    contents.reduce((sum, { item, quantity }) => sum + ofItem(item) * quantity, 0) +
    bags.reduce((sum, bag) => sum + ofBag(bag), 0);
  return known && known.cost <= cost ? known : { contents, cost };
}

/** Pieces by the numbers of a search. */
export function piecesCounted({ table }: Covering, contents: readonly Content[]): Int32Array {
  const have = new Int32Array(table.ids.length);
  for (const { item, quantity } of contents) {
    const index = table.number.get(item.id);
    if (index !== undefined) have[index] = (have[index] ?? 0) + quantity;
  }
  return have;
}

/** The same by their ids, only those that are there. */
export function piecesOf({ table }: Covering, have: Int32Array): Map<string, number> {
  return new Map(table.ids.flatMap((id, index) => ((have[index] ?? 0) > 0 ? [[id, have[index] ?? 0]] : [])));
}

/** Whether no bag is a role's own: then all hands draw on all bags. */
export function sharesBags({ bags }: OutingWork): boolean {
  return bags.every(({ role }) => role === null);
}
