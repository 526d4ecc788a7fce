import type { ResolvedExtension, ResolvedTool } from '../plan/resolved.ts';
import type { Chain } from './chains.ts';
import { inOrder } from './order.ts';
import type { StackParts } from './stackTask.ts';
import type { Ways } from './ways.ts';
import { eachPick, socketsFor, turns } from './ways.ts';

/**
 * The lightest stacks in the order of `inOrder`, without writing out all: whatever is among the first n stacks of a
 * ladder's range is made of the first n of its sockets, of its chains at one joint and of the tools there, each list in
 * the same order, because a part that comes later makes every stack later.
 */
export function lightestStacks(ways: Ways, count: number): StackParts[] {
  const loosens = ways.task.action !== 'tighten';
  const first = ways.ladders.flatMap((one) => {
    const squares = new Set(one.chains.map(({ driveMm }) => driveMm));
    return [...squares].flatMap((driveMm) => {
      const tools = ways.tools
        .filter((tool) => turns(ways.task, tool, one, { driveMm }))
        .toSorted((a, b) => a.massKg - b.massKg || (a.id < b.id ? -1 : 1))
        .slice(0, count);
      // Chains of one range of rungs have the same sockets: the first of each list make the first stacks.
      return inRanges(one.chains.filter((chain) => chain.driveMm === driveMm)).flatMap(({ range, chains }) => {
        const sockets = socketsFor(one, range)
          .toSorted((a, b) => a.massKg - b.massKg || corner(a, loosens) - corner(b, loosens) || (a.id < b.id ? -1 : 1))
          .slice(0, count);
        return lightestPicks(chains, count).flatMap(({ extensions }) =>
          sockets.flatMap((socket) => tools.map((tool: ResolvedTool): StackParts => ({ tool, extensions, socket }))),
        );
      });
    });
  });
  return inOrder(first, loosens).slice(0, count);
}

function inRanges(chains: readonly Chain[]): { range: Chain; chains: Chain[] }[] {
  const ranges = new Map<string, { range: Chain; chains: Chain[] }>();
  for (const chain of chains) {
    const key = `${chain.from} ${chain.until}`;
    const known = ranges.get(key);
    if (known) known.chains.push(chain);
    else ranges.set(key, { range: chain, chains: [chain] });
  }
  return [...ranges.values()];
}

interface Picked {
  /** From the tool to the socket. */
  extensions: ResolvedExtension[];
  massKg: number;
}

/** The first n of all picks are among the picks of the n chains whose own first comes first. */
function lightestPicks(chains: readonly Chain[], count: number): Picked[] {
  const firsts = chains.map((chain) => ({ chain, first: picks(chain, 1)[0] }));
  const near = firsts
    .toSorted((a, b) => (a.first && b.first ? inPickOrder(a.first, b.first) : 0))
    .slice(0, count)
    .flatMap(({ chain }) => picks(chain, count));
  return near.toSorted(inPickOrder).slice(0, count);
}

/** The first n picks of one chain: of each link no more than its first n extensions can be in one. */
function picks({ links }: Chain, count: number): Picked[] {
  const lists = new Map(
    links.map((link) => {
      const first = link.extensions
        .toSorted((a, b) => a.massKg - b.massKg || (a.id < b.id ? -1 : 1))
        .slice(0, count + links.length);
      return [link, { extensions: first }] as const;
    }),
  );
  const found: Picked[] = [];
  for (const picked of eachPick(links.flatMap((link) => lists.get(link) ?? []))) {
    const extensions = picked.toReversed();
    found.push({ extensions, massKg: extensions.reduce((sum, e) => sum + e.massKg, 0) });
  }
  return found.toSorted(inPickOrder).slice(0, count);
}

function inPickOrder(a: Picked, b: Picked): number {
  return a.massKg - b.massKg || a.extensions.length - b.extensions.length || (idsOf(a) < idsOf(b) ? -1 : 1);
}

function corner({ openingForm }: StackParts['socket'], loosens: boolean): number {
  return Number(loosens && openingForm === 'hex12');
}

function idsOf({ extensions }: Picked): string {
  return extensions.map(({ id }) => id).join('\n');
}
