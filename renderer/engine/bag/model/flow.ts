import type { Chain, Link } from '../../stack/chains.ts';
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
}

/**
 * The choice of a stack as a flow from the sockets down their ladders, through chains to the tools.
 *
 *   Σ_s y(s) + v(i + 1) = v(i) + Σ_c y(c)  on each rung;   Σ_c y(c) = Σ_t y(t)  at each joint;
 *   Σ_c times(c, l)·y(c) = Σ_e y(l, e)  in each link;   Σ_s y(s) = value
 *
 * It has as many columns as there are sockets, chains and tools, where the stacks written out are their product. With
 * whole pieces any flow in shares goes through pieces that are there, so one stack that is whole goes with it.
 */
export function addFlow(program: IntegerProgram, ways: Ways, { value, whole }: FlowTerms): Uses {
  const uses: Uses = new Map();
  const use = (id: string, term: Term): void => {
    const known = uses.get(id);
    if (known) known.push(term);
    else uses.set(id, [term]);
  };
  /** What goes through each link; one of a single extension needs no choice. */
  const linked = new Map<Link, Term[]>();
  const through = (link: Link, term: Term): void => {
    const [only] = link.extensions;
    if (link.extensions.length === 1 && only) return use(only.id, term);
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
        const column = program.column({ upper: value, integer: whole });
        rungs[index]?.push([column, 1]);
        all.push([column, 1]);
        use(id, [column, 1]);
      }
      const below = rungs[index - 1];
      if (!below) continue;
      // A long socket does with what a short one does.
      const down = program.column({ upper: value, integer: false });
      rungs[index]?.push([down, -1]);
      below.push([down, 1]);
    }
    for (const chain of one.chains) {
      // Half of a chain that takes two of a link could go through one piece.
      const column = program.column({ upper: value, integer: whole || hasTwice(chain) });
      rungs[chain.from]?.push([column, -1]);
      for (const link of chain.links) through(link, [column, 1]);
      const key = `${chain.driveMm} ${one.form}`;
      const joint = joints.get(key) ?? { terms: [], one, chain };
      joint.terms.push([column, 1]);
      joints.set(key, joint);
    }
    for (const balance of rungs) program.equal(0, balance);
  }
  for (const { terms, one, chain } of joints.values()) {
    for (const tool of ways.tools) {
      if (!turns(ways.task, tool, one, chain)) continue;
      const column = program.column({ upper: value, integer: whole });
      terms.push([column, -1]);
      use(tool.id, [column, 1]);
    }
    program.equal(0, terms);
  }
  for (const [link, terms] of linked) {
    const picked = link.extensions.map(({ id, onHand }): Term => {
      const column = program.column({ upper: Math.min(onHand, value * extensionsMax), integer: whole });
      use(id, [column, 1]);
      return [column, -1];
    });
    program.equal(0, [...terms, ...picked]);
  }
  program.equal(value, all);
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
  if (holds) return false;
  const forms = new Set(ways.ladders.map(({ form }) => form));
  const alike = forms.size <= 1 || ways.tools.every(({ stepDeg }) => stepDeg !== null);
  return alike && ways.ladders.every(({ chains }) => chains.every(({ links }) => links.length <= 1));
}

function hasTwice({ links }: Chain): boolean {
  return new Set(links).size < links.length;
}
