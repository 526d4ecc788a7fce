import type { ResolvedBag } from '../../plan/resolved.ts';
import type { Ways } from '../../stack/ways.ts';
import type { StepGroup } from '../outingWork.ts';
import type { ReducedWork } from '../presolve/reduceWork.ts';
import { addGroupFlow, addShadows, isNetwork } from './flow.ts';
import type { Term } from './integerProgram.ts';
import type { BagModel } from './lying.ts';
import { lyingTerms } from './lying.ts';

/** A group that is to be done without one piece of an item. */
export interface Loss {
  group: StepGroup;
  piece: string;
}

const anyBag = (): boolean => true;

/**
 * Rule 10 and its like for whole bags, for all hands and one step after another:
 * - a network's group has two stacks with no piece in common, which is the same;
 * - of another group each loss that was told, by a flow that does without the piece, and networks that any answer must
 *   serve twice over; whoever solves looks at the answer and tells what is still missing;
 * - where a bag may be lost, every group has a flow from the other bags.
 */
export function addLosses(model: BagModel, { work, standing }: ReducedWork, losses: readonly Loss[]): void {
  if (work.tolerance === 'bag') {
    for (const group of standing) {
      for (const lost of work.bags) addFlowFrom(model, group, (bag) => bag !== lost);
    }
    return;
  }
  if (work.tolerance !== 'piece') return;
  for (const group of standing) {
    if (isNetwork(group)) addFlowFrom(model, group, anyBag, 2);
    else addCuts(model, group);
  }
  for (const loss of losses) addLoss(model, loss);
}

function addFlowFrom(model: BagModel, group: StepGroup, from: (bag: ResolvedBag) => boolean, value = 1): void {
  for (const [id, terms] of addGroupFlow(model.program, group, { value, whole: false })) {
    model.program.atLeast(0, [...lyingTerms(model, id, from), ...taken(terms)]);
  }
}

/** What any answer must have that stands a loss of the group: it makes the bound tell more and rules out no answer. */
function addCuts(model: BagModel, group: StepGroup): void {
  for (const ways of group.holds ? [group.ways, group.holds] : [group.ways]) {
    for (const uses of addShadows(model.program, ways)) {
      for (const [id, terms] of uses) model.program.atLeast(0, [...lyingTerms(model, id, anyBag), ...taken(terms)]);
    }
  }
  if (group.holds) addOneMore(model, group.ways, group.holds);
}

/** Stack and hold have a tool and a socket each: with one lost there must still be two. */
export function addOneMore(model: BagModel, ways: Ways, holds: Ways): void {
  const toolsOf = (one: Ways): string[] => one.tools.map(({ id }) => id);
  const socketsOf = (one: Ways): string[] => one.ladders.flatMap(({ rungs }) => rungs.flat().map(({ id }) => id));
  for (const idsOf of [toolsOf, socketsOf]) {
    const ids = new Set([...idsOf(ways), ...idsOf(holds)]);
    model.program.atLeast(
      3,
      [...ids].flatMap((id) => lyingTerms(model, id, anyBag)),
    );
  }
}

function addLoss(model: BagModel, { group, piece }: Loss): void {
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
