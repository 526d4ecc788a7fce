import type { Chain } from '../../stack/chains.ts';
import type { Ways } from '../../stack/ways.ts';
import { turns } from '../../stack/ways.ts';
import type { StepGroup } from '../outingWork.ts';

/** The stacks of one task with pieces by number: a socket, a chain of its rung or a lower one, a tool of its joint. */
export interface TableFlow {
  ladders: { rungs: number[][]; chains: TableChain[] }[];
  joints: number[][];
}

/** So many pieces of each link, the joint it ends in, the rung it begins to reach from. */
export interface TableChain {
  links: { pieces: number[]; times: number }[];
  joint: number;
  from: number;
}

export interface TableGroup {
  group: StepGroup;
  main: TableFlow;
  hold: TableFlow | null;
}

/** Numbers in place of ids, for loops that run often. */
export interface CoverTable {
  ids: string[];
  number: ReadonlyMap<string, number>;
  /** What one more of a piece costs. */
  cost: Float64Array;
  /** No more of a piece can be packed. */
  most: Int32Array;
}

/** Pieces of a stack, a piece used twice named twice. */
export type Pieces = readonly number[];

/** A group's stacks and holds by the numbers of their pieces. */
export function tableGroup(table: Pick<CoverTable, 'number'>, group: StepGroup): TableGroup {
  return { group, main: flowOf(table, group.ways), hold: group.holds && flowOf(table, group.holds) };
}

function flowOf({ number }: Pick<CoverTable, 'number'>, { task, tools, ladders }: Ways): TableFlow {
  const at = (id: string): number => {
    const found = number.get(id);
    if (found === undefined) throw new Error(`no number for ${id}`);
    return found;
  };
  const joints = new Map<string, number>();
  const lists: number[][] = [];
  const linksOf = ({ links }: Chain): { pieces: number[]; times: number }[] =>
    [...new Set(links)].map((link) => ({
      pieces: link.extensions.map(({ id }) => at(id)),
      times: links.filter((other) => other === link).length,
    }));
  return {
    joints: lists,
    ladders: ladders.map((one) => ({
      rungs: one.rungs.map((rung) => rung.map(({ id }) => at(id))),
      chains: one.chains.map((chain) => {
        const key = `${chain.driveMm} ${one.form}`;
        let joint = joints.get(key);
        if (joint === undefined) {
          joint = lists.length;
          joints.set(key, joint);
          lists.push(tools.filter((tool) => turns(task, tool, one, chain)).map(({ id }) => at(id)));
        }
        return { links: linksOf(chain), joint, from: chain.from };
      }),
    })),
  };
}

/** What is packed, and what of it is in use already; further pieces may be packed at their cost. */
export interface Supply {
  have: Int32Array;
  used: Int32Array;
  cost: Float64Array;
  most: Int32Array;
}

interface Best {
  cost: number;
  piece: number;
}

/** The stack that costs least beyond what is packed; null where there is none. */
export function cheapestStack(
  flow: TableFlow,
  supply: Supply,
  costBelow = Infinity,
): { cost: number; pieces: Pieces } | null {
  const tools = flow.joints.map((list) => cheapest(list, supply));
  let least = costBelow;
  let found: { links: { pieces: number[]; times: number }[]; socket: number; tool: number } | null = null;
  for (const { rungs, chains } of flow.ladders) {
    const onward = cheapestOnward(rungs, supply);
    if ((onward[0]?.cost ?? Infinity) >= least) continue;
    for (const { links, joint, from } of chains) {
      const tool = tools[joint];
      const socket = onward[from];
      if (!tool || !socket) continue;
      let cost = socket.cost + tool.cost;
      if (cost >= least) continue;
      for (const link of links) {
        cost += link.times === 1 ? leastCost(link.pieces, supply) : pickCheapest(link, supply).cost;
        if (cost >= least) break;
      }
      if (cost >= least) continue;
      least = cost;
      found = { links, socket: socket.piece, tool: tool.piece };
      if (least === 0) break;
    }
    if (least === 0) break;
  }
  if (!found) return null;
  const extensions = found.links.flatMap((link) => pickCheapest(link, supply).pieces);
  return { cost: least, pieces: [found.tool, ...extensions, found.socket] };
}

/** Stacks made of what is packed alone, one after another. */
export function* packedStacks(flow: TableFlow, { have, used }: Pick<Supply, 'have' | 'used'>): Generator<Pieces> {
  const free = (piece: number): boolean => (have[piece] ?? 0) > (used[piece] ?? 0);
  const tools = flow.joints.map((list) => list.filter(free));
  for (const { rungs, chains } of flow.ladders) {
    const packed = rungs.map((rung) => rung.filter(free));
    for (const { links, joint, from } of chains) {
      const there = packed.slice(from).flat();
      if (there.length === 0) continue;
      for (const extensions of picksOf(links, (piece) => (have[piece] ?? 0) - (used[piece] ?? 0))) {
        for (const tool of tools[joint] ?? []) for (const socket of there) yield [tool, ...extensions, socket];
      }
    }
  }
}

/** For each rung, the cheapest socket from there on. */
function cheapestOnward(rungs: readonly number[][], supply: Supply): Best[] {
  const best = rungs.map((rung) => cheapest(rung, supply));
  for (let index = best.length - 2; index >= 0; index -= 1) {
    const [here, next] = [best[index], best[index + 1]];
    if (here && next && next.cost < here.cost) best[index] = next;
  }
  return best;
}

function cheapest(list: readonly number[], supply: Supply): Best {
  let best: Best = { cost: Infinity, piece: -1 };
  for (const piece of list) {
    const cost = moreCost(piece, 1, supply);
    if (cost < best.cost) best = { cost, piece };
    if (cost === 0) break;
  }
  return best;
}

function leastCost(list: readonly number[], supply: Supply): number {
  let least = Infinity;
  for (const piece of list) {
    const cost = moreCost(piece, 1, supply);
    if (cost < least) least = cost;
    if (cost === 0) break;
  }
  return least;
}

/** Of a link so many pieces as it takes, the cheapest first. */
function pickCheapest(
  { pieces, times }: { pieces: number[]; times: number },
  supply: Supply,
): { cost: number; pieces: number[] } {
  if (times === 1) {
    const { cost, piece } = cheapest(pieces, supply);
    return { cost, pieces: [piece] };
  }
  const picked: number[] = [];
  let total = 0;
  for (let taken = 0; taken < times; taken += 1) {
    let best: Best = { cost: Infinity, piece: -1 };
    for (const piece of pieces) {
      const before = picked.filter((other) => other === piece).length;
      const cost = moreCost(piece, before + 1, supply) - (before > 0 ? moreCost(piece, before, supply) : 0);
      if (cost < best.cost) best = { cost, piece };
    }
    if (best.piece < 0) return { cost: Infinity, pieces: [] };
    total += best.cost;
    picked.push(best.piece);
  }
  return { cost: total, pieces: picked };
}

/** Every pick of a chain's links from what is free. */
function* picksOf(
  links: readonly { pieces: number[]; times: number }[],
  freeOf: (piece: number) => number,
  picked: readonly number[] = [],
): Generator<number[]> {
  const [link, ...rest] = links;
  if (!link) {
    yield [...picked];
    return;
  }
  for (const some of combinations(link.pieces, link.times, freeOf)) yield* picksOf(rest, freeOf, [...picked, ...some]);
}

/** So many of the pieces, each no more often than it is free. */
function* combinations(
  pieces: readonly number[],
  times: number,
  freeOf: (piece: number) => number,
): Generator<number[]> {
  if (times === 0) {
    yield [];
    return;
  }
  const [first, ...rest] = pieces;
  if (first === undefined) return;
  for (let here = Math.min(times, Math.max(0, freeOf(first))); here >= 0; here -= 1) {
    for (const others of combinations(rest, times - here, freeOf)) {
      yield [...Array.from({ length: here }, () => first), ...others];
    }
  }
}

/** What it costs that `count` of a piece are free. */
function moreCost(piece: number, count: number, { have, used, cost, most }: Supply): number {
  const lacking = count - (have[piece] ?? 0) + (used[piece] ?? 0);
  if (lacking <= 0) return 0;
  return (have[piece] ?? 0) + lacking > (most[piece] ?? 0) ? Infinity : lacking * (cost[piece] ?? 0);
}
