import type { ResolvedExtension, ResolvedSocket, ResolvedTool } from '../plan/resolved.ts';
import { atLeast } from '../tolerance.ts';
import { resetAngleDeg } from '../turning/index.ts';
import type { Chain } from './chains.ts';
import type { Link } from './chainStock.ts';
import { chainsFor } from './chains.ts';
import { chainStock } from './chainStock.ts';
import { socketServes, strict, swings, toolServes } from './serves.ts';
import type { StackParts, StackTask } from './stackTask.ts';

/**
 * Every stack that does a task, not written out: a stack is a socket of a ladder, a chain that reaches from its rung or
 * from a lower one, and a tool that meets the chain and swings with the socket. What would be a product of lists stays
 * a few lists.
 */
export interface Ways {
  task: StackTask;
  tools: ResolvedTool[];
  ladders: Ladder[];
}

/** Sockets of one square, in rungs from the shortest to the longest: what reaches with the short reaches with the long. */
export interface Ladder {
  rungs: ResolvedSocket[][];
  chains: Chain[];
  /** For the rule of the swing; null where the access gives no angle, and forms do not matter. */
  form: ResolvedSocket['openingForm'] | null;
}

/** The pieces a search may take from: a plan, or what lies in some bags. */
export interface StackStock {
  tools: ReadonlyMap<string, ResolvedTool>;
  extensions: ReadonlyMap<string, ResolvedExtension>;
  sockets: ReadonlyMap<string, ResolvedSocket>;
}

/** Every stack of the stock that does the task (rules 1 to 8, 13 and 14), less those that include another. */
export function findWays(stock: StackStock, task: StackTask): Ways {
  const tools = [...stock.tools.values()].filter((tool) => toolServes(task, tool, strict));
  const chains = chainStock(task, stock.extensions.values(), new Set(tools.map(({ driveMm }) => driveMm)));
  const sides = new Map<string, { driveMm: number; form: Ladder['form']; sockets: ResolvedSocket[] }>();
  const { depthMm, swingDeg } = task.access;
  for (const socket of stock.sockets.values()) {
    if (!socketServes(task, socket, strict)) continue;
    const { driveMm, openingForm } = socket;
    const key = `${driveMm} ${swingDeg === null ? '' : resetAngleDeg(openingForm)}`;
    const known = sides.get(key);
    if (known) known.sockets.push(socket);
    else sides.set(key, { driveMm, form: swingDeg === null ? null : openingForm, sockets: [socket] });
  }
  const ladders = [...sides.values()].map(({ driveMm, form, sockets }): Ladder => {
    const rungs = rungsOf(sockets, depthMm);
    return {
      form,
      rungs: rungs.map((rung) => rung.sockets),
      chains: chainsFor(
        chains,
        driveMm,
        rungs.map(({ lengthMm }) => lengthMm),
      ),
    };
  });
  return onlyTurned({ task, tools, ladders });
}

/** The same, searched for when it is asked for: of a large stock a plan most often needs a part alone. */
export function waysWhenAsked(stock: StackStock, task: StackTask): Ways {
  let found: Ways | undefined;
  const ways = (): Ways => (found ??= findWays(stock, task));
  return {
    task,
    get tools() {
      return ways().tools;
    },
    get ladders() {
      return ways().ladders;
    },
  };
}

/** The stock less what is left out. */
export function stockOf(stock: StackStock, keeps: (id: string) => boolean): StackStock {
  const kept = <T>(items: ReadonlyMap<string, T>): ReadonlyMap<string, T> =>
    new Map([...items].filter(([id]) => keeps(id)));
  return { tools: kept(stock.tools), extensions: kept(stock.extensions), sockets: kept(stock.sockets) };
}

/** Sockets by length, the shortest first; past the depth all are alike. */
function rungsOf(
  sockets: readonly ResolvedSocket[],
  depthMm: number,
): { lengthMm: number; sockets: ResolvedSocket[] }[] {
  const rungs = new Map<number, ResolvedSocket[]>();
  for (const socket of sockets) {
    const lengthMm = atLeast(socket.lengthMm, depthMm) ? depthMm : socket.lengthMm;
    const known = rungs.get(lengthMm);
    if (known) known.push(socket);
    else rungs.set(lengthMm, [socket]);
  }
  return [...rungs]
    .map(([lengthMm, alike]) => ({ lengthMm, sockets: alike }))
    .toSorted((a, b) => a.lengthMm - b.lengthMm);
}

/** The sockets with which no piece of a chain can be left out. */
export function socketsFor({ rungs }: Ladder, { from, until }: Chain): ResolvedSocket[] {
  return rungs.slice(from, Math.min(until, rungs.length)).flat();
}

/** Whether a tool turns a chain on a socket of this ladder. */
export function turns(
  task: StackTask,
  tool: ResolvedTool,
  { form }: Pick<Ladder, 'form'>,
  chain: Pick<Chain, 'driveMm'>,
): boolean {
  return tool.driveMm === chain.driveMm && (form === null || swings(task, tool, { openingForm: form }));
}

function withoutIdle(ways: Ways): Ways {
  const { task, ladders } = ways;
  const used = (tool: ResolvedTool): boolean =>
    ladders.some((one) => one.chains.some((chain) => turns(task, tool, one, chain)));
  return { ...ways, tools: ways.tools.filter(used) };
}

/** How many stacks there are, counted without writing them out. */
export function countWays({ task, tools, ladders }: Ways): number {
  let count = 0;
  for (const one of ladders) {
    for (const chain of one.chains) {
      const turning = tools.filter((tool) => turns(task, tool, one, chain)).length;
      count += countPicks(chain) * turning * socketsFor(one, chain).length;
    }
  }
  return count;
}

/** The stacks written out, one after another. */
export function* eachStack({ task, tools, ladders }: Ways): Generator<StackParts> {
  for (const one of ladders) {
    for (const chain of one.chains) {
      const turning = tools.filter((tool) => turns(task, tool, one, chain));
      const sockets = socketsFor(one, chain);
      for (const picked of eachPick(chain.links)) {
        const extensions = picked.toReversed();
        for (const socket of sockets) for (const tool of turning) yield { tool, extensions, socket };
      }
    }
  }
}

/** Every set of extensions that makes a chain: of a link named twice, two pieces, whichever order they come in. */
export function* eachPick(
  links: readonly Link[],
  picked: readonly ResolvedExtension[] = [],
): Generator<ResolvedExtension[]> {
  const link = links[picked.length];
  if (!link) {
    yield [...picked];
    return;
  }
  const before = picked.findLast((_, index) => links[index] === link);
  const from = before ? link.extensions.indexOf(before) : 0;
  for (const extension of link.extensions.slice(from)) {
    if (picked.filter((other) => other === extension).length < extension.onHand)
      yield* eachPick(links, [...picked, extension]);
  }
}

function countPicks({ links }: Chain): number {
  if (new Set(links).size === links.length)
    return links.reduce((product, { extensions }) => product * extensions.length, 1);
  let count = 0;
  for (const _ of eachPick(links)) count += 1;
  return count;
}

/** Every part that is in some stack, once. */
export function partsOf({ tools, ladders }: Ways): (ResolvedTool | ResolvedExtension | ResolvedSocket)[] {
  const links = new Set<Link>();
  for (const { chains } of ladders) for (const chain of chains) for (const link of chain.links) links.add(link);
  const extensions = [...links].flatMap((link) => link.extensions);
  return [...new Set([...tools, ...extensions, ...ladders.flatMap(({ rungs }) => rungs.flat())])];
}

/** Whether there is no stack at all. */
export function noWay({ ladders }: Ways): boolean {
  return ladders.length === 0;
}

/** The ways that use only pieces which are kept. */
export function restrictWays(ways: Ways, keeps: (id: string) => boolean): Ways {
  const known = new Map<Link, Link>();
  const less = (link: Link): Link => {
    const found = known.get(link) ?? { extensions: link.extensions.filter(({ id }) => keeps(id)) };
    known.set(link, found);
    return found;
  };
  const ladders = ways.ladders.map((one): Ladder => {
    const chains = one.chains.map((chain) => ({ ...chain, links: chain.links.map(less) })).filter(hasPieces);
    return { ...one, rungs: one.rungs.map((rung) => rung.filter(({ id }) => keeps(id))), chains };
  });
  return onlyTurned({ ...ways, tools: ways.tools.filter(({ id }) => keeps(id)), ladders });
}

function hasPieces({ links }: Chain): boolean {
  return links.every((link) => {
    const times = links.filter((other) => other === link).length;
    return link.extensions.reduce((sum, { onHand }) => sum + onHand, 0) >= times;
  });
}

/** Chains that no tool or socket is left for go, and what no chain is left for. */
function onlyTurned(ways: Ways): Ways {
  const { task, tools } = ways;
  const ladders = ways.ladders.flatMap((one): Ladder[] => {
    const longest = one.rungs.findLastIndex((rung) => rung.length > 0);
    const turned = new Map<number, boolean>();
    const turning = (chain: Chain): boolean => {
      const known = turned.get(chain.driveMm) ?? tools.some((tool) => turns(task, tool, one, chain));
      turned.set(chain.driveMm, known);
      return known;
    };
    const chains = one.chains.filter((chain) => chain.from <= longest && turning(chain));
    const shortest = chains.reduce((least, { from }) => Math.min(least, from), Infinity);
    const rungs = one.rungs.map((rung, index) => (index < shortest ? [] : rung));
    return chains.length === 0 ? [] : [{ ...one, rungs, chains }];
  });
  return withoutIdle({ ...ways, ladders });
}
