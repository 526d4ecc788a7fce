import type { ResolvedBag } from '../../plan/resolved.ts';
import type { Ways } from '../../stack/ways.ts';
import type { Draw } from './draws.ts';
import { drawsOfGroups } from './draws.ts';
import type { Uses } from './flow.ts';
import { addFlow, addGroupFlow, isNetwork, shadowsOf } from './flow.ts';
import type { IntegerProgram } from './integerProgram.ts';
import type { Loss } from './losses.ts';
import type { StepGroup } from '../outingWork.ts';
import { atOneTime } from '../outingWork.ts';
import type { ReducedWork } from '../presolve/reduceWork.ts';

/** Stacks that what lies in the bags must allow at one time. */
export interface Demand {
  /** Their flows in a program, and what they draw: once, or as many times over as a column says. */
  addTo: (program: IntegerProgram, times?: number) => Draw[];
  /** Of this item one piece is lost. */
  lost: string | null;
}

/**
 * What the steps ask of the bags, told apart: each group's stack, or those of a slot's roles together. Rule 10 and its
 * like for whole bags go for all hands and one step after another:
 * - where a bag may be lost, every group has its stack in the other bags;
 * - to stand the loss of a piece a network's group has two stacks with no piece in common, which is the same;
 * - of another group, networks that any such bag must serve twice over: they make the bound tell more and rule out no
 *   answer. Its losses are told one by one, by whoever looks at an answer and sees what is missing.
 */
export function demandsOf({ work, groups, standing }: ReducedWork): Demand[] {
  const plain = atOneTime(groups).map((together): Demand => {
    return { addTo: (program, times) => drawsOfGroups(program, together, times), lost: null };
  });
  if (work.tolerance === 'nothing') return plain;
  if (work.tolerance === 'piece') return [...plain, ...standing.flatMap(twofold)];
  const after = work.bags.flatMap((lost) => standing.map((group) => fromBags(group, (bag) => bag !== lost)));
  return [...plain, ...after];
}

/** A group's stack after the loss of a piece, for all hands. */
export function demandAfter({ group, piece }: Loss): Demand {
  return { ...fromBags(group, anyBag), lost: piece };
}

const anyBag = (): boolean => true;

function fromBags(group: StepGroup, of: (bag: ResolvedBag) => boolean): Demand {
  const addTo = (program: IntegerProgram, times?: number): Draw[] =>
    drawn(addGroupFlow(program, group, { value: 1, whole: false, times }), of);
  return { addTo, lost: null };
}

function twofold(group: StepGroup): Demand[] {
  if (isNetwork(group)) {
    const addTo = (program: IntegerProgram, times?: number): Draw[] =>
      drawn(addGroupFlow(program, group, { value: 2, whole: false, times }), anyBag);
    return [{ addTo, lost: null }];
  }
  return (group.holds ? [group.ways, group.holds] : [group.ways]).flatMap(shadowDemands);
}

function shadowDemands(ways: Ways): Demand[] {
  return shadowsOf(ways).map((counted): Demand => {
    const addTo = (program: IntegerProgram, times?: number): Draw[] =>
      drawn(addFlow(program, ways, { value: 2, whole: false, times, counted }), anyBag);
    return { addTo, lost: null };
  });
}

function drawn(uses: Uses, of: (bag: ResolvedBag) => boolean): Draw[] {
  return [...uses].map(([id, terms]): Draw => ({ id, of, terms }));
}
