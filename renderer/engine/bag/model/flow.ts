import type { Chain } from '../../stack/chains.ts';
import type { Link } from '../../stack/chainStock.ts';
import { extensionsMax } from '../../stack/stackTask.ts';
import type { Ladder, Ways } from '../../stack/ways.ts';
import { turns } from '../../stack/ways.ts';
import type { StepGroup } from '../outingWork.ts';
import type { IntegerProgram, Term } from './integerProgram.ts';

/** For each piece, the terms that use it up. */
export type Uses = Map<string, Term[]>;

export interface FlowTerms {
  /** How many stacks at once: 1, or 2 that have no piece in common. */
  value: number;
  /** Whole numbers; where parts may be used in shares and the rest makes them whole, false. */
  whole: boolean;
  /** A column: so many times what it is, in place of a given value. */
  times?: number | undefined;
  /** The links of a chain whose pieces are used up; all where it is left out. */
  counted?: (links: readonly Link[]) => readonly Link[];
}

/**
 * The choice of a stack as a flow from the sockets down their ladders, through chains to the tools.
 *
 *   Σ_s y(s) + v(i + 1) = v(i) + Σ_c y(c)  on each rung;   Σ_c y(c) = Σ_t y(t)  at each joint;
 *   Σ_c times(c, l)·y(c) = Σ_e y(l, e)  in each link;   Σ_s y(s) = value
 *
 * It has as many columns as there are sockets, chains and tools, where the stacks written out are their product. With
 * whole pieces any flow in shares goes through pieces that are there, so one stack that is whole goes with it.
 *
 * @returns what the flow uses of each piece
 */
export function addFlow(program: IntegerProgram, ways: Ways, terms: FlowTerms): Uses {
  const { value, whole, times, counted = (links: readonly Link[]) => links } = terms;
  const upper = times === undefined ? value : Infinity;
  const uses: Uses = new Map();
  const spend = (id: string, term: Term): void => {
    const known = uses.get(id);
    if (known) known.push(term);
    else uses.set(id, [term]);
  };
  /** What goes through each link; one of a single extension needs no choice. */
  const linked = new Map<Link, Term[]>();
  const through = (link: Link, term: Term): void => {
    const [only] = link.extensions;
    if (link.extensions.length === 1 && only) return spend(only.id, term);
    const known = linked.get(link);
    if (known) known.push(term);
    else linked.set(link, [term]);
  };
  const joints = new Map<string, { terms: Term[]; one: Ladder; chain: Chain }>();
  const all: Term[] = [];
  for (const one of ways.ladders) {
    const rungs = one.rungs.map((): Term[] => []);
    for (const [index, rung] of one.rungs.entries()) {
      for (const { id } of rung) {
        const column = program.column({ upper, integer: whole });
        rungs[index]?.push([column, 1]);
        all.push([column, 1]);
        spend(id, [column, 1]);
      }
      const below = rungs[index - 1];
      if (!below) continue;
      // A long socket does with what a short one does.
      const down = program.column({ upper, integer: false });
      rungs[index]?.push([down, -1]);
      below.push([down, 1]);
    }
    for (const chain of one.chains) {
      // Half of a chain that takes two of a link could go through one piece.
      const column = program.column({ upper, integer: whole || (value === 1 && hasTwice(chain)) });
      rungs[chain.from]?.push([column, -1]);
      for (const link of counted(chain.links)) through(link, [column, 1]);
      const key = `${chain.driveMm} ${one.form}`;
      const joint = joints.get(key) ?? { terms: [], one, chain };
      joint.terms.push([column, 1]);
      joints.set(key, joint);
    }
    for (const balance of rungs) program.equal(0, balance);
  }
  for (const { terms: joining, one, chain } of joints.values()) {
    for (const tool of ways.tools) {
      if (!turns(ways.task, tool, one, chain)) continue;
      const column = program.column({ upper, integer: whole });
      joining.push([column, -1]);
      spend(tool.id, [column, 1]);
    }
    program.equal(0, joining);
  }
  for (const [link, passing] of linked) {
    const picked = link.extensions.map(({ id, onHand }): Term => {
      const column = program.column({ upper: Math.min(onHand, upper * extensionsMax), integer: whole });
      spend(id, [column, 1]);
      return [column, -1];
    });
    program.equal(0, [...passing, ...picked]);
  }
  if (times === undefined) program.equal(value, all);
  else program.equal(0, [...all, [times, -value]]);
  return uses;
}

/** What a group uses at one time: its stack, and its hold beside it. */
export function addGroupFlow(
  program: IntegerProgram,
  { ways, holds }: Pick<StepGroup, 'ways' | 'holds'>,
  terms: FlowTerms,
): Uses {
  if (!holds) return addFlow(program, ways, terms);
  // Stack and hold could share one piece half and half: here shares do not make a whole.
  const both = { ...terms, whole: true };
  const uses = addFlow(program, ways, both);
  for (const [id, further] of addFlow(program, holds, both)) uses.set(id, [...(uses.get(id) ?? []), ...further]);
  return uses;
}

/**
 * Whether the stacks are the paths of a network: every part only asks what its neighbour is. Then, by Menger's
 * theorem, a bag stands the loss of any one piece just where two stacks with no piece in common lie in it.
 */
export function isNetwork({ ways, holds }: Pick<StepGroup, 'ways' | 'holds'>): boolean {
  return (
    !holds && neighboursOnly(ways) && ways.ladders.every(({ chains }) => chains.every(({ links }) => links.length <= 1))
  );
}

/** Whether no tool asks for the form of a socket that it does not touch. */
function neighboursOnly({ ladders, tools }: Ways): boolean {
  return new Set(ladders.map(({ form }) => form)).size <= 1 || tools.every(({ stepDeg }) => stepDeg !== null);
}

/**
 * Of other stacks, networks that any bag which stands a loss must serve twice over: each chain is told by one of its
 * links, or by none. Whatever cuts such a network cuts every stack, so at least two of its pieces are packed. They make
 * the program's bound tell more; what they leave out the losses told one by one see to.
 *
 * @returns for each of them, which links of a chain it counts
 */
export function shadowsOf(ways: Ways): ((links: readonly Link[]) => Link[])[] {
  if (!neighboursOnly(ways)) return [() => []];
  const nth =
    (n: number) =>
    (links: readonly Link[]): Link[] => {
      const link = [...new Set(links)].toSorted((a, b) => lightestKg(b) - lightestKg(a))[n];
      return link ? [link] : [];
    };
  const most = Math.max(1, ...ways.ladders.flatMap(({ chains }) => chains.map(({ links }) => new Set(links).size)));
  return Array.from({ length: most }, (_, n) => nth(n));
}

function lightestKg({ extensions }: Link): number {
  return Math.min(...extensions.map(({ massKg }) => massKg));
}

function hasTwice({ links }: Chain): boolean {
  return new Set(links).size < links.length;
}
