import type { ResolvedExtension } from '../plan/resolved.ts';
import { atLeast } from '../tolerance.ts';
import { extensionServes, passesHole, strict } from './serves.ts';
import type { StackTask } from './stackTask.ts';
import { extensionsMax } from './stackTask.ts';

/** Extensions that stand in for each other in a task: of the same squares and length, and as free in the hole. */
export interface Link {
  extensions: ResolvedExtension[];
}

/** Links that take a socket out to where a tool can turn it: any extension of each makes a stack. */
export interface Chain {
  /** From the socket outwards; a link named twice takes two pieces. */
  links: Link[];
  /** The female square that the tool meets. */
  driveMm: number;
  /** The first rung of its ladder, counted from the shortest sockets, on which it reaches; longer ones reach too. */
  from: number;
  /** The first rung on which fewer pieces reach; it is of no use there. */
  until: number;
}

/** A link as the search sees it. */
interface SearchLink extends Link {
  driveInMm: number;
  driveOutMm: number;
  lengthMm: number;
  universal: boolean;
  narrow: boolean;
  onHand: number;
  key: string;
}

/** The extensions of a catalog as one task may use them, sorted for the search. */
export interface ChainStock {
  task: StackTask;
  /** Whose two squares are alike, by that square: the longest first. Only those that pass the hole. */
  lengthening: ReadonlyMap<number, SearchLink[]>;
  /** From one square to another, by the square on the socket's side. */
  adapting: ReadonlyMap<number, SearchLink[]>;
  /** Squares that some tool has. */
  turned: ReadonlySet<number>;
  /** No part inside the hole is longer. */
  longestMm: number;
}

/** What a task may use of the extensions given. */
export function chainStock(
  task: StackTask,
  extensions: Iterable<ResolvedExtension>,
  turned: ReadonlySet<number>,
): ChainStock {
  const links = linksOf(
    task,
    [...extensions].filter((e) => extensionServes(task, e, strict)),
  );
  const narrow = links.filter((link) => link.narrow);
  // One that keeps the square is of use inside the hole alone: it is there to reach.
  const lengthening = bySquare(narrow.filter((link) => link.driveInMm === link.driveOutMm));
  for (const list of lengthening.values()) list.sort((a, b) => b.lengthMm - a.lengthMm);
  return {
    task,
    lengthening,
    adapting: bySquare(links.filter((link) => link.driveInMm !== link.driveOutMm)),
    turned,
    longestMm: Math.max(0, ...narrow.map(({ lengthMm }) => lengthMm)),
  };
}

function linksOf(task: StackTask, extensions: readonly ResolvedExtension[]): SearchLink[] {
  const links = new Map<string, SearchLink>();
  for (const extension of extensions) {
    const { driveInMm, driveOutMm, lengthMm, form, outsideDiameterMm, onHand } = extension;
    const universal = form === 'universal';
    const narrow = passesHole(task, outsideDiameterMm);
    const key = [driveInMm, driveOutMm, lengthMm, universal, narrow].join(' ');
    const known = links.get(key);
    if (known) {
      known.extensions.push(extension);
      known.onHand += onHand;
    } else links.set(key, { extensions: [extension], driveInMm, driveOutMm, lengthMm, universal, narrow, onHand, key });
  }
  return [...links.values()];
}

/**
 * Every chain for sockets of one square (rules 1, 3, 4, 7 and 8), each once, with the rungs on which no piece of it can
 * be left out: of two chains that end in the same square, none has all the pieces of the other and more.
 *
 * The search goes from the socket outwards, the shortest sockets first; what reaches with those is not met again with
 * longer ones. Extensions that keep the square come longest first, so that each set is met in one order only, and a
 * branch ends where the longest that may follow falls short.
 *
 * @param lengthsMm - of the sockets, rung by rung, each longer than the one before
 * @returns the chains, in the order in which the search meets them
 */
export function chainsFor(stock: ChainStock, driveMm: number, lengthsMm: readonly number[]): Chain[] {
  const found: Found[] = [];
  for (const [rung, lengthMm] of lengthsMm.entries()) {
    const shorterMm = lengthsMm[rung - 1] ?? null;
    walk(
      stock,
      { links: [], driveMm, lengthMm, shorterMm, universals: 0, from: 0, rung, barred: false, reachedAt: [] },
      found,
    );
  }
  return leastChains(found);
}

/** A chain while its links are still the search's own. */
interface Found extends Chain {
  links: SearchLink[];
}

interface Walk {
  links: SearchLink[];
  driveMm: number;
  lengthMm: number;
  /** The same on the rung before; null on the lowest. */
  shorterMm: number | null;
  /** On the rung before some part would be too wide for where it lies. */
  barred: boolean;
  universals: number;
  rung: number;
  /** Where in the list of its square the next lengthening part may begin. */
  from: number;
  /** Squares at which a shorter beginning of this chain already reaches. */
  reachedAt: number[];
}

function walk(stock: ChainStock, at: Walk, found: Found[]): void {
  const { depthMm } = stock.task.access;
  const reaches = atLeast(at.lengthMm, depthMm);
  if (reaches) {
    // Met on the rung before, and so is all that goes on from here.
    if (!at.barred && reachesBefore(at, depthMm)) return;
    if (at.reachedAt.includes(at.driveMm)) return;
    const { links, driveMm, rung } = at;
    if (stock.turned.has(driveMm)) found.push({ links, driveMm, from: rung, until: Infinity });
  }
  const left = extensionsMax - at.links.length;
  if (left === 0 || (!reaches && !atLeast(at.lengthMm + left * stock.longestMm, depthMm))) return;
  const reachedAt = reaches ? [...at.reachedAt, at.driveMm] : at.reachedAt;
  if (!reaches) lengthen(stock, at, found, left);
  for (const link of stock.adapting.get(at.driveMm) ?? []) {
    if (!reaches && !link.narrow) continue;
    const barred = at.barred || (!link.narrow && !reachesBefore(at, depthMm));
    const next = joined({ ...at, barred }, link, 0, reachedAt);
    if (next) walk(stock, next, found);
  }
}

function reachesBefore({ shorterMm }: Walk, depthMm: number): boolean {
  return shorterMm !== null && atLeast(shorterMm, depthMm);
}

function lengthen(stock: ChainStock, at: Walk, found: Found[], left: number): void {
  const list = stock.lengthening.get(at.driveMm) ?? [];
  for (let index = at.from; index < list.length; index += 1) {
    const link = list[index];
    if (!link) break;
    // The last part that may be put on must reach; the list grows shorter from here on.
    if (left === 1 && !atLeast(at.lengthMm + link.lengthMm, stock.task.access.depthMm)) break;
    const next = joined(at, link, index, at.reachedAt);
    if (next) walk(stock, next, found);
  }
}

function joined(at: Walk, link: SearchLink, from: number, reachedAt: number[]): Walk | null {
  const universals = at.universals + Number(link.universal);
  if (universals > 1) return null;
  if (at.links.filter((other) => other === link).length >= link.onHand) return null;
  return {
    ...at,
    links: [...at.links, link],
    driveMm: link.driveInMm,
    lengthMm: at.lengthMm + link.lengthMm,
    shorterMm: at.shorterMm === null ? null : at.shorterMm + link.lengthMm,
    universals,
    from,
    reachedAt,
  };
}

/**
 * One chain of each set of links and outer square, less those that include another of the same square that reaches on
 * the same rung already; of the others, from which rung on one does.
 */
function leastChains(chains: readonly Found[]): Chain[] {
  const rungs = new Map<string, number>();
  const kept: { chain: Found; keys: string[] }[] = [];
  for (const chain of chains) {
    const keys = chain.links.map(({ key }) => key).toSorted();
    const key = chainKey(chain.driveMm, keys);
    if (rungs.has(key)) continue;
    rungs.set(key, chain.from);
    kept.push({ chain, keys });
  }
  return kept
    .map(({ chain, keys }): Chain => {
      const { links, driveMm, from } = chain;
      const parts = properParts(keys).map((part) => rungs.get(chainKey(driveMm, part)) ?? Infinity);
      return { links, driveMm, from, until: Math.min(...parts) };
    })
    .filter(({ from, until }) => from < until);
}

function chainKey(driveMm: number, keys: readonly string[]): string {
  return [driveMm, ...keys].join('\n');
}

/** Every proper part of a list of at most three keys, order kept. */
function properParts(keys: readonly string[]): string[][] {
  const all = 2 ** keys.length - 1;
  return Array.from({ length: all }, (_, mask) => keys.filter((_key, bit) => (mask & (1 << bit)) !== 0));
}

function bySquare(links: readonly SearchLink[]): Map<number, SearchLink[]> {
  const lists = new Map<number, SearchLink[]>();
  for (const link of links) {
    const list = lists.get(link.driveOutMm);
    if (list) list.push(link);
    else lists.set(link.driveOutMm, [link]);
  }
  return lists;
}
