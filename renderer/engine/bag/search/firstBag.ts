import { drawsOf } from '../../chance/draws.ts';
import type { Pieces, Supply, TableGroup } from './coverTable.ts';
import { cheapestStack } from './coverTable.ts';
import type { Covering } from './covering.ts';
import { fatalLosses, servedBy, take, withoutOne } from './standing.ts';

/** Rounds of taking something out and covering again. They are counted, not timed: the same plan, the same bag. */
const shakesMost = 40;

/**
 * A good bag soon, not the least: groups are covered one after another by what costs least beyond what is packed;
 * then, again and again, a piece or two are taken out and what has come undone is covered in another way. Bags and
 * their limits are left to whoever packs it.
 *
 * @returns how many of each piece; null where some group cannot be covered
 */
export function firstBag(cover: Covering, shakes = shakesMost): Int32Array | null {
  let best = complete(cover, Int32Array.from(cover.kept), cover.table.cost);
  if (!best) return null;
  let bestCost = costOf(cover, best);
  const roll = drawsOf(1).uniform;
  const accept = (have: Int32Array | null): boolean => {
    if (!have) return false;
    const cost = costOf(cover, have);
    if (cost >= bestCost) return false;
    best = have;
    bestCost = cost;
    return true;
  };
  const improveOneByOne = (): void => {
    for (let again = true; again;) {
      again = false;
      for (const piece of packed(best ?? new Int32Array(0), cover))
        again = accept(without(cover, best, [piece])) || again;
    }
  };
  improveOneByOne();
  for (let shake = 0; shake < shakes; shake += 1) {
    const there = packed(best, cover);
    if (there.length < 2) break;
    const out = [0, 1, 2].map(() => there[Math.floor(roll() * there.length)] ?? 0);
    if (accept(without(cover, best, out, roll))) improveOneByOne();
  }
  return best;
}

/** What a bag costs beyond what is kept and its gear. */
export function costOf({ table }: Covering, have: Int32Array): number {
  return have.reduce((sum, count, piece) => sum + count * (table.cost[piece] ?? 0), 0);
}

function packed(have: Int32Array, { table, kept }: Covering): number[] {
  return [...have.keys()]
    .filter((piece) => (have[piece] ?? 0) > (kept[piece] ?? 0))
    .toSorted((a, b) => (table.cost[b] ?? 0) - (table.cost[a] ?? 0));
}

/** Another bag, made without some pieces; with a roll, at prices that are a little off. */
function without(
  cover: Covering,
  from: Int32Array | null,
  out: readonly number[],
  roll?: () => number,
): Int32Array | null {
  if (!from) return null;
  const have = Int32Array.from(from);
  const cost = roll
    ? cover.table.cost.map((each) => each * (0.85 + 0.3 * roll()))
    : Float64Array.from(cover.table.cost);
  const most = Int32Array.from(cover.table.most);
  for (const piece of out) {
    have[piece] = cover.kept[piece] ?? 0;
    most[piece] = cover.kept[piece] ?? 0;
  }
  return complete(cover, have, cost, most);
}

/** Packs what is lacking, then takes out what is idle. */
function complete(cover: Covering, have: Int32Array, cost: Float64Array, most = cover.table.most): Int32Array | null {
  const supply: Supply = { have, used: new Int32Array(have.length), cost, most };
  if (!coverAll(cover, supply) || !coverLosses(cover, supply)) return null;
  prune(cover, supply);
  return have;
}

/** In a slot what other roles use at the same time is not free. */
function coverAll({ groups, slots }: Covering, supply: Supply): boolean {
  const inSlots: { slot: string; role: string; pieces: Pieces }[] = [];
  for (const group of groups) {
    const { slot, role } = group.group;
    const beside = slot === null || !slots ? [] : usedBeside(inSlots, slot, role);
    take(supply.used, beside, 1);
    const pieces = coverOne(group, supply);
    take(supply.used, beside, -1);
    if (!pieces) return false;
    if (slot !== null) inSlots.push({ slot, role, pieces });
  }
  return true;
}

/** Of the other roles of a slot, each piece as often as the step of theirs that uses most of it. */
function usedBeside(
  inSlots: readonly { slot: string; role: string; pieces: Pieces }[],
  slot: string,
  role: string,
): number[] {
  const others = inSlots.filter((one) => one.slot === slot && one.role !== role);
  return [...new Set(others.map((one) => one.role))].flatMap((other) => {
    const steps = others.filter((one) => one.role === other).map(({ pieces }) => pieces);
    return [...new Set(steps.flat())].flatMap((piece) => {
      const most = Math.max(...steps.map((pieces) => pieces.filter((one) => one === piece).length));
      return Array.from({ length: most }, () => piece);
    });
  });
}

/** Packs what one group lacks; the pieces it then uses. */
function coverOne(group: TableGroup, supply: Supply): Pieces | null {
  const served = servedBy(group, supply);
  if (served) return served;
  const stack = cheapestStack(group.main, supply);
  if (!stack) return null;
  take(supply.used, stack.pieces, 1);
  const held = group.hold && cheapestStack(group.hold, supply);
  take(supply.used, stack.pieces, -1);
  if (group.hold && !held) return null;
  const pieces = [...stack.pieces, ...(held?.pieces ?? [])];
  for (const piece of new Set(pieces)) {
    const needed = pieces.filter((other) => other === piece).length + (supply.used[piece] ?? 0);
    supply.have[piece] = Math.max(supply.have[piece] ?? 0, needed);
  }
  return pieces;
}

/** Packs second ways until no single loss leaves a group unserved. */
function coverLosses({ standing }: Covering, supply: Supply): boolean {
  for (const group of standing) {
    for (
      let fatal = fatalLosses(group, supply);
      fatal === null || fatal.length > 0;
      fatal = fatalLosses(group, supply)
    ) {
      const piece = fatal?.[0];
      if (piece === undefined) return false;
      const left = withoutOne(supply, piece);
      if (!coverOne(group, left)) return false;
      supply.have.set(left.have);
      supply.have[piece] = (left.have[piece] ?? 0) + 1;
    }
  }
  return true;
}

function prune(cover: Covering, supply: Supply): void {
  for (const piece of packed(supply.have, cover)) {
    while ((supply.have[piece] ?? 0) > (cover.kept[piece] ?? 0)) {
      supply.have[piece] = (supply.have[piece] ?? 0) - 1;
      if (stands(cover, supply)) continue;
      supply.have[piece] = (supply.have[piece] ?? 0) + 1;
      break;
    }
  }
}

/** Whether everything is served, and after any loss, by what is packed. */
function stands(cover: Covering, supply: Supply): boolean {
  const only = { ...supply, most: supply.have };
  return coverAll(cover, only) && cover.standing.every((group) => fatalLosses(group, only)?.length === 0);
}

/** A bag that lacks second ways, with them packed; the one known before where that costs less. */
export function mended(cover: Covering, have: Int32Array, before: Int32Array | null): Int32Array | null {
  const after = complete(cover, Int32Array.from(have), cover.table.cost);
  if (!after) return before;
  return before && costOf(cover, before) <= costOf(cover, after) ? before : after;
}
