import type { Ways } from '../../stack/ways.ts';
import type { StepGroup } from '../outingWork.ts';
import { addGroupFlow } from './flow.ts';
import type { Term } from './integerProgram.ts';
import type { BagModel } from './lying.ts';
import { lyingTerms } from './lying.ts';

/** A group that is to be done without one piece of an item. */
export interface Loss {
  group: StepGroup;
  piece: string;
}

const anyBag = (): boolean => true;

/** A stack and its hold have a tool and a socket each: with one lost there must still be two. */
export function addOneMore(model: BagModel, standing: readonly StepGroup[]): void {
  const toolsOf = (one: Ways): string[] => one.tools.map(({ id }) => id);
  const socketsOf = (one: Ways): string[] => one.ladders.flatMap(({ rungs }) => rungs.flat().map(({ id }) => id));
  for (const { ways, holds } of standing) {
    if (!holds) continue;
    for (const idsOf of [toolsOf, socketsOf]) {
      const ids = new Set([...idsOf(ways), ...idsOf(holds)]);
      model.program.atLeast(
        3,
        [...ids].flatMap((id) => lyingTerms(model, id, anyBag)),
      );
    }
  }
}

/** The group's flow without the piece. */
export function addLoss(model: BagModel, { group, piece }: Loss): void {
  const { program } = model;
  const lying = model.lyingOf.get(piece) ?? [];
  const most = Math.max(0, ...lying.map(({ upper }) => upper));
  for (const [id, terms] of addGroupFlow(program, group, { value: 1, whole: false })) {
    const there = lyingTerms(model, id, anyBag);
    if (id !== piece) program.atLeast(0, [...there, ...taken(terms)]);
    else if (most <= 1) program.atMost(0, terms);
    else {
      // One less than there is, where there is one.
      const some = program.column({ upper: 1 });
      program.atLeast(0, [[some, most], ...there.map(([column]): Term => [column, -1])]);
      program.atLeast(0, [...there, [some, -1], ...taken(terms)]);
    }
  }
}

function taken(terms: readonly Term[]): Term[] {
  return terms.map(([column, count]): Term => [column, -count]);
}
