import { atLeast } from '../tolerance.ts';
import type { ChainStock, Link, SearchLink } from './chainStock.ts';
import { extensionsMax } from './stackTask.ts';

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

/**
 * Every chain for sockets of one square (rules 1, 3, 4, 7 and 8), each once, with the rungs on which no piece of it can
 * be left out: of two chains that end in the same square, none has all the pieces of the other and more.
 *
 * The search goes from the socket outwards, the shortest sockets first; what reaches with those is not met again with
 * longer ones. Extensions that keep the square come in one order only (those first that may begin nearer the head, of
 * those the longest), so that each set is met once, and a branch ends where the longest that may follow falls short.
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
    if (!atLeast(at.lengthMm, link.fromMm)) continue;
    join(search, at, { link, from: 0, left, barred: at.barred || !fitsBefore(at, link) });
  }
  if (reaches) reachedAt.pop();
}

function lengthen(search: Search, at: Walk, left: number): void {
  const { stock } = search;
  const list = stock.lengthening.get(at.driveMm) ?? [];
  for (let index = at.from; index < list.length; index += 1) {
    const link = list[index];
    // Too wide here; those that follow may begin no nearer.
    if (!link || !atLeast(at.lengthMm, link.fromMm)) break;
    // The last part that may be put on must reach; of those as free in the hole, the list grows shorter from here on.
    if (left === 1 && !atLeast(at.lengthMm + link.lengthMm, stock.task.access.depthMm)) {
      if (link.fromMm === list.at(-1)?.fromMm) break;
      continue;
    }
    join(search, at, { link, from: index, left, barred: at.barred || !fitsBefore(at, link) });
  }
}

/** Whether a link could begin here on the rung before; on the lowest there is none to compare with. */
function fitsBefore({ shorterMm }: Walk, { fromMm }: SearchLink): boolean {
  return fromMm === 0 || (shorterMm !== null && atLeast(shorterMm, fromMm));
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
  return links.map(({ number }) => number).toSorted((a, b) => a - b);
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
