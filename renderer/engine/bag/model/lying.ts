import type { Carried, ResolvedBag } from '../../plan/resolved.ts';
import type { IntegerProgram, Term } from './integerProgram.ts';

/** How many of one item lie in one bag: a column of the program. */
export interface Lying {
  item: Carried;
  bag: ResolvedBag;
  /** No more than this is of use. */
  upper: number;
  column: number;
}

export interface BagModel {
  program: IntegerProgram;
  lying: Lying[];
  /** The same by item. */
  lyingOf: Map<string, Lying[]>;
  /** Whether a bag holds something, where its own mass counts. */
  opened: Map<ResolvedBag, number>;
}

/** What of an item lies in the bags of a kind. */
export function lyingTerms(model: BagModel, id: string, of: (bag: ResolvedBag) => boolean): Term[] {
  return (model.lyingOf.get(id) ?? []).filter(({ bag }) => of(bag)).map(({ column }): Term => [column, 1]);
}
