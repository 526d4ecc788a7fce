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
  /** From 1 on: where it stands among the links of its stock. */
  number: number;
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
  /** More than any link's number. */
  base: number;
  /** A number for every square, from 1 on. */
  squares: ReadonlyMap<number, number>;
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
    base: links.length + 1,
    squares: new Map([...turned].map((driveMm, index) => [driveMm, index + 1])),
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
    } else {
      const number = links.size + 1;
      links.set(key, { extensions: [extension], driveInMm, driveOutMm, lengthMm, universal, narrow, onHand, number });
    }
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
  const search: Search = { stock, rung: 0, links: [], universals: 0, reachedAt: [], found: new Map() };
  for (const [rung, lengthMm] of lengthsMm.entries()) {
    search.rung = rung;
    walk(search, { driveMm, lengthMm, shorterMm: lengthsMm[rung - 1] ?? null, barred: false, from: 0 });
  }
  return leastChains(search);
}

/** A chain while its links are still the search's own. */
interface Found extends Chain {
  links: SearchLink[];
}

/** One search, changed in place on the way out and set back on the way home: there are a million ways to go. */
interface Search {
  stock: ChainStock;
  rung: number;
  links: SearchLink[];
  universals: number;
  /** Squares at which a shorter beginning of the chain in hand already reaches. */
  reachedAt: number[];
  /** By what it is made of: the first rung comes first. */
  found: Map<number, Found>;
}

/** Where a search stands. */
interface Walk {
  driveMm: number;
  lengthMm: number;
  /** The same on the rung before; null on the lowest. */
  shorterMm: number | null;
  /** On the rung before some part would be too wide for where it lies. */
  barred: boolean;
  /** Where in the list of its square the next lengthening part may begin. */
  from: number;
}

function walk(search: Search, at: Walk): void {
  const { stock, links, reachedAt } = search;
  const { depthMm } = stock.task.access;
  const reaches = atLeast(at.lengthMm, depthMm);
  const reachedBefore = at.shorterMm !== null && atLeast(at.shorterMm, depthMm);
  if (reaches) {
    // Met on the rung before, and so is all that goes on from here.
    if (!at.barred && reachedBefore) return;
    if (reachedAt.includes(at.driveMm)) return;
    if (stock.turned.has(at.driveMm)) keep(search, at.driveMm);
  }
  const left = extensionsMax - links.length;
  if (left === 0 || (!reaches && !atLeast(at.lengthMm + left * stock.longestMm, depthMm))) return;
  if (reaches) reachedAt.push(at.driveMm);
  else lengthen(search, at, left);
  for (const link of stock.adapting.get(at.driveMm) ?? []) {
    if (!reaches && !link.narrow) continue;
    join(search, at, { link, from: 0, left, barred: at.barred || (!link.narrow && !reachedBefore) });
  }
  if (reaches) reachedAt.pop();
}

function lengthen(search: Search, at: Walk, left: number): void {
  const { stock } = search;
  const list = stock.lengthening.get(at.driveMm) ?? [];
  for (let index = at.from; index < list.length; index += 1) {
    const link = list[index];
    if (!link) break;
    // The last part that may be put on must reach; the list grows shorter from here on.
    if (left === 1 && !atLeast(at.lengthMm + link.lengthMm, stock.task.access.depthMm)) break;
    join(search, at, { link, from: index, left, barred: at.barred });
  }
}

function join(
  search: Search,
  at: Walk,
  { link, from, left, barred }: Pick<Walk, 'from' | 'barred'> & { link: SearchLink; left: number },
): void {
  if (left === 1 && !search.stock.turned.has(link.driveInMm)) return;
  if (link.universal && search.universals > 0) return;
  if (timesIn(search.links, link) >= link.onHand) return;
  search.links.push(link);
  search.universals += Number(link.universal);
  walk(search, {
    driveMm: link.driveInMm,
    lengthMm: at.lengthMm + link.lengthMm,
    shorterMm: at.shorterMm === null ? null : at.shorterMm + link.lengthMm,
    barred,
    from,
  });
  search.universals -= Number(link.universal);
  search.links.pop();
}

function timesIn(links: readonly SearchLink[], link: SearchLink): number {
  let times = 0;
  for (const other of links) if (other === link) times += 1;
  return times;
}

function keep({ stock, links, rung, found }: Search, driveMm: number): void {
  const code = codeOf(stock, driveMm, numbersOf(links));
  if (!found.has(code)) found.set(code, { links: [...links], driveMm, from: rung, until: Infinity });
}

function numbersOf(links: readonly SearchLink[]): number[] {
  return links.map(({ number }) => number).sort((a, b) => a - b);
}

/** A chain's pieces and its outer square as one number: after the square as many digits as a chain may have links. */
function codeOf({ base, squares }: ChainStock, driveMm: number, numbers: readonly number[]): number {
  let code = squares.get(driveMm) ?? 0;
  for (let place = 0; place < extensionsMax; place += 1) code = code * base + (numbers[place] ?? 0);
  return code;
}

/**
 * The chains less those that include another of the same square that reaches on the same rung already; of the others,
 * from which rung on one does.
 */
function leastChains({ stock, found }: Search): Chain[] {
  const least: Chain[] = [];
  for (const { links, driveMm, from } of found.values()) {
    const numbers = numbersOf(links);
    let until = Infinity;
    for (const part of properParts[numbers.length] ?? []) {
      const code = codeOf(
        stock,
        driveMm,
        part.map((place) => numbers[place] ?? 0),
      );
      until = Math.min(until, found.get(code)?.from ?? Infinity);
    }
    if (from < until) least.push({ links, driveMm, from, until });
  }
  return least;
}

/** Of a list of so many, the places of every proper part, order kept. */
const properParts: readonly (readonly number[][])[] = Array.from({ length: extensionsMax + 1 }, (_, length) =>
  Array.from({ length: 2 ** length - 1 }, (_part, mask) =>
    Array.from({ length }, (_place, place) => place).filter((place) => (mask & (1 << place)) !== 0),
  ),
);

function bySquare(links: readonly SearchLink[]): Map<number, SearchLink[]> {
  const lists = new Map<number, SearchLink[]>();
  for (const link of links) {
    const list = lists.get(link.driveOutMm);
    if (list) list.push(link);
    else lists.set(link.driveOutMm, [link]);
  }
  return lists;
}
