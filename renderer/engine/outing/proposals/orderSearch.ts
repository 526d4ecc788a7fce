import { drawsOf } from '../../chance/draws.ts';
import type { Block } from './blocks.ts';

/** What an order costs: its aim first, then the other figure, then how far it is from the listed order. */
export interface OrderCost {
  toolChanges: number;
  loosePeak: number;
  inversions: number;
}

export type Aim = 'tool-changes' | 'loose-pieces';

/** Up to so many blocks whose place is open, every order is looked at. */
const exactUpTo = 12;
const statesMost = 200_000;

interface State {
  done: number;
  /** The string that each role has in hand. */
  last: ReadonlyMap<string, string>;
  level: number;
  cost: OrderCost;
  order: number[];
}

/**
 * The cost of an order of blocks.
 *
 * @param order - numbers of the blocks as listed
 * @param start - loose pieces before the first
 */
export function costOf(blocks: readonly Block[], order: readonly number[], start: number): OrderCost {
  let state = begin(start);
  for (const index of order) state = extended(blocks, state, index);
  return state.cost;
}

/** Loose pieces that must lie about before anything is done, so that none is ever missing in the listed order. */
export function looseAtStart(blocks: readonly Block[]): number {
  let level = 0;
  let least = 0;
  for (const { loose } of blocks) {
    level += loose.delta;
    least = Math.min(least, level);
  }
  return -least;
}

/**
 * The best order by going through all sets of blocks that can be done first: two orders of one set, which leave the same
 * strings in hand, differ in nothing that comes later.
 *
 * @returns null where there are too many of them
 */
export function exactOrder(blocks: readonly Block[], aim: Aim, start: number): number[] | null {
  if (blocks.length > 30 || blocks.filter(({ free }) => free).length > exactUpTo) return null;
  let states = new Map<string, State>([['', begin(start)]]);
  let seen = 0;
  for (let step = 0; step < blocks.length; step += 1) {
    const next = new Map<string, State>();
    for (const state of states.values()) {
      for (const index of ready(blocks, state.done)) {
        const longer = extended(blocks, state, index);
        const key = `${longer.done} ${[...longer.last].toSorted().join(' ')}`;
        const known = next.get(key);
        if (known === undefined || isBetter(longer.cost, known.cost, aim)) next.set(key, longer);
      }
    }
    seen += next.size;
    if (seen > statesMost) return null;
    states = next;
  }
  return [...states.values()].reduce((best, state) => (isBetter(state.cost, best.cost, aim) ? state : best)).order;
}

/** Blocks taken out and put in elsewhere, kept where that is no worse; the same seed finds the same order. */
export function searchedOrder(
  blocks: readonly Block[],
  aim: Aim,
  x: { start: number; seed: number; tries: number },
): number[] {
  const { uniform } = drawsOf(x.seed);
  const pick = (count: number): number => Math.floor(uniform() * count);
  let current = blocks.map((_, index) => index);
  let cost = costOf(blocks, current, x.start);
  let [best, bestCost] = [current, cost];
  for (let n = 0; n < x.tries; n += 1) {
    const [from, to] = [pick(blocks.length), pick(blocks.length)];
    const tried = current.toSpliced(from, 1).toSpliced(to, 0, current[from] ?? 0);
    if (!isAllowed(blocks, tried)) continue;
    const found = costOf(blocks, tried, x.start);
    if (isBetter(cost, found, aim) && primary(cost, aim) < primary(found, aim)) continue;
    current = tried;
    cost = found;
    if (isBetter(found, bestCost, aim)) [best, bestCost] = [tried, found];
  }
  return best;
}

/** Whether every block comes after those it must come after. */
export function isAllowed(blocks: readonly Block[], order: readonly number[]): boolean {
  const position = new Map(order.map((index, at) => [index, at]));
  return blocks.every(({ after }, index) =>
    [...after].every((before) => (position.get(before) ?? 0) < (position.get(index) ?? 0)),
  );
}

/** Whether one order costs less than another: in its aim, then in the other figure, then in how far it is moved. */
export function isBetter(one: OrderCost, other: OrderCost, aim: Aim): boolean {
  const rank = (cost: OrderCost): number[] =>
    aim === 'tool-changes'
      ? [cost.toolChanges, cost.loosePeak, cost.inversions]
      : [cost.loosePeak, cost.toolChanges, cost.inversions];
  const [a, b] = [rank(one), rank(other)];
  const at = a.findIndex((value, index) => value !== b[index]);
  return at >= 0 && (a[at] ?? 0) < (b[at] ?? 0);
}

function primary(cost: OrderCost, aim: Aim): number {
  return aim === 'tool-changes' ? cost.toolChanges : cost.loosePeak;
}

function begin(start: number): State {
  const cost = { toolChanges: 0, loosePeak: start, inversions: 0 };
  return { done: 0, last: new Map(), level: start, cost, order: [] };
}

function ready(blocks: readonly Block[], done: number): number[] {
  const has = (index: number): boolean => Math.floor(done / 2 ** index) % 2 === 1;
  return blocks.flatMap(({ after }, index) => (!has(index) && [...after].every(has) ? [index] : []));
}

function extended(blocks: readonly Block[], state: State, index: number): State {
  const block = blocks[index];
  if (block === undefined) throw new Error(`no block ${index}`);
  const last = new Map(state.last);
  let { toolChanges } = state.cost;
  for (const { role, string } of block.strings) {
    const before = last.get(role);
    if (before !== undefined && before !== string) toolChanges += 1;
    last.set(role, string);
  }
  const skipped = blocks.slice(0, index).filter((_, at) => !state.order.includes(at)).length;
  return {
    done: state.done + 2 ** index,
    last,
    level: state.level + block.loose.delta,
    cost: {
      toolChanges,
      loosePeak: Math.max(state.cost.loosePeak, state.level + block.loose.peak),
      inversions: state.cost.inversions + skipped,
    },
    order: [...state.order, index],
  };
}
