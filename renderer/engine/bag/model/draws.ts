import type { ResolvedBag } from '../../plan/resolved.ts';
import type { StepGroup } from '../outingWork.ts';
import { drawsFrom } from '../outingWork.ts';
import { addGroupFlow } from './flow.ts';
import type { IntegerProgram, Term } from './integerProgram.ts';
import type { BagModel } from './lying.ts';
import { lyingTerms } from './lying.ts';

/** What is used of a piece, which must lie in the bags of a kind. */
export interface Draw {
  id: string;
  of: (bag: ResolvedBag) => boolean;
  terms: Term[];
}

/**
 * The flows of groups that work at one time, and what they draw from the bags.
 *
 * @param times - a column: so many times over; once where it is left out
 */
export function drawsOfGroups(
  program: IntegerProgram,
  groups: readonly StepGroup[],
  times?: number | undefined,
): Draw[] {
  const [first] = groups;
  if (first && first.slot === null) {
    const uses = addGroupFlow(program, first, { value: 1, whole: false, times });
    return [...uses].map(([id, terms]): Draw => ({ id, of: (bag) => drawsFrom(bag, first.role), terms }));
  }
  return drawsInSlot(program, groups, times);
}

/** Each role draws from its own bags and takes the rest, d(r, p), from nobody's: Σ_r d(r, p) lies there. */
function drawsInSlot(program: IntegerProgram, groups: readonly StepGroup[], times?: number | undefined): Draw[] {
  const draws: Draw[] = [];
  const fromNobody = new Map<string, Map<string, number>>();
  for (const group of groups) {
    const { role } = group;
    // Two roles of a slot could share one piece half and half.
    for (const [id, terms] of addGroupFlow(program, group, { value: 1, whole: true, times })) {
      const columns = fromNobody.get(id) ?? new Map<string, number>();
      fromNobody.set(id, columns);
      const column = columns.get(role) ?? program.column({ integer: false });
      columns.set(role, column);
      draws.push({ id, of: (bag) => bag.role === role, terms: [...terms, [column, -1]] });
    }
  }
  for (const [id, columns] of fromNobody) {
    draws.push({ id, of: (bag) => bag.role === null, terms: [...columns.values()].map((column): Term => [column, 1]) });
  }
  return draws;
}

/** What is drawn lies there. */
export function addDraws(model: BagModel, draws: readonly Draw[]): void {
  for (const { id, of, terms } of draws) {
    model.program.atLeast(0, [...lyingTerms(model, id, of), ...terms.map(([column, count]): Term => [column, -count])]);
  }
}
