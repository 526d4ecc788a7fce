import { atLeast, atMost } from '../tolerance.ts';
import type { PatternPoint } from './readPattern.ts';

export type OrderRule = 'star' | 'spiral';

/** Each rule in words, as a screen and a print say it. Both are the project's own; that patterns are tightened so is common practice, no source. */
export const orderRules: Readonly<Record<OrderRule, string>> = {
  star: 'Star: begin at the first position, then the one farthest across from it. Each next pair begins in the widest gap of those done, away from the last pair, and ends farthest across; the lower number where several are as far.',
  spiral:
    'Spiral: begin nearest the middle of the pattern; each next is the nearest to the middle of those left, going on clockwise from the last done where several are as near.',
};

/**
 * The order of tightening that a rule proposes.
 *
 *   star: by pairs. The first of a pair = the position left with the greatest least distance to all done; of several, to the last pair; of
 *     several, the greatest distance to the last done. The second = the one farthest from the first. Equal within 1e-9: the first as numbered
 *   spiral: next = the position left with the least distance from the middle; equal: the least turn clockwise from the last done
 *
 * @param points - in the order of their numbers, with their places [mm]
 * @returns every position once
 * @throws nothing
 * @source project's own rules; that the bolts of a circle are tightened crosswise and those of a rectangle from the middle outwards is
 *   common practice, no source
 * @validity positions in one plane; the middle is that of the pattern's extent
 * @example proposeOrder('star', readPattern('circle 100 mm', ['1', '2', '3', '4'])) // ['1', '3', '2', '4']
 */
export function proposeOrder(rule: OrderRule, points: readonly PatternPoint[]): string[] {
  const [middleX, middleY] = [middleOf(points.map(({ xMm }) => xMm)), middleOf(points.map(({ yMm }) => yMm))];
  const left = points.map(({ position, xMm, yMm }) => ({ position, x: xMm - middleX, y: yMm - middleY }));
  const order: Spot[] = [];
  for (let count = left.length; count > 0; count -= 1) {
    const last = order.at(-1) ?? null;
    const next = rule === 'star' ? across(left, order) : nextOutwards(left, last);
    if (next === undefined) break;
    order.push(next);
    left.splice(left.indexOf(next), 1);
  }
  return order.map(({ position }) => position);
}

interface Spot {
  position: string;
  x: number;
  y: number;
}

const middleOf = (values: readonly number[]): number => (Math.min(...values) + Math.max(...values)) / 2;

function across(left: readonly Spot[], done: readonly Spot[]): Spot | undefined {
  if (done.length === 0) return left[0];
  const last = done.slice(-1);
  if (done.length % 2 === 1) return farthest(left, last)[0];
  return farthest(farthest(farthest(left, done), done.slice(-2)), last)[0];
}

/** Those whose least distance from some others is greatest. */
function farthest(left: readonly Spot[], from: readonly Spot[]): readonly Spot[] {
  const away = (spot: Spot): number => Math.min(...from.map(({ x, y }) => Math.hypot(spot.x - x, spot.y - y)));
  const most = Math.max(...left.map(away));
  return left.filter((spot) => atLeast(away(spot), most));
}

function nextOutwards(left: readonly Spot[], last: Spot | null): Spot | undefined {
  const out = ({ x, y }: Spot): number => Math.hypot(x, y);
  const least = Math.min(...left.map(out));
  const nearest = left.filter((spot) => atMost(out(spot), least) || out(spot) < sameMm);
  if (last === null || out(last) < sameMm) return nearest[0];
  const from = clockwiseRad(last);
  const turns = nearest.map((spot) => turnOn(from, clockwiseRad(spot)));
  const fewest = Math.min(...turns);
  return nearest[turns.findIndex((turn) => turn < fewest + sameRad)];
}

/** Sines and cosines leave such crumbs where a place is the middle itself, or straight on. */
const sameMm = 1e-9;
const sameRad = 1e-9;

/** From the top, clockwise. */
const clockwiseRad = ({ x, y }: Spot): number => Math.atan2(x, y);

/** How far to turn on clockwise; straight on is a whole turn less nothing, and counts as none. */
function turnOn(from: number, to: number): number {
  const turn = (((to - from) % (2 * Math.PI)) + 2 * Math.PI) % (2 * Math.PI);
  return turn > 2 * Math.PI - sameRad ? 0 : turn;
}

/** What an order lacks, has twice, or has beyond the positions. */
export interface OrderFaults {
  missing: string[];
  twice: string[];
  unknown: string[];
}

/**
 * Holds an order against the positions it must have, each once.
 *
 * @returns the positions that are missing, in it twice, or none of the interface's; three empty lists where it is whole
 * @throws nothing
 * @source project's own words
 * @validity names compared as they stand
 * @example orderFaults(['1', '1', '4'], ['1', '2', '3']) // { missing: ['2', '3'], twice: ['1'], unknown: ['4'] }
 */
export function orderFaults(order: readonly string[], positions: readonly string[]): OrderFaults {
  const [named, ordered] = [new Set(positions), new Set(order)];
  return {
    missing: positions.filter((position) => !ordered.has(position)),
    twice: [...new Set(order.filter((position, at) => order.indexOf(position) < at))],
    unknown: [...ordered].filter((position) => !named.has(position)),
  };
}

/**
 * Positions in the order a text lists them in.
 *
 * @param text - "1 3 2 4", "1, 3, 2, 4", "1 → 3 → 2 → 4"; "1-3-2-4" where nothing else stands between them
 * @returns the names, those that stand in it twice too; none where the text is empty
 * @throws nothing
 * @source project's own words
 * @validity names without space, comma, semicolon or arrow
 * @example orderOfText('1-3-2-4') // ['1', '3', '2', '4']
 */
export function orderOfText(text: string): string[] {
  // "1-3-2-4" is an order too, but a dash may also stand in a name, as in "P-1, P-3".
  const said = text.trim();
  const between = /[\s,;>→]/.test(said) ? /[\s,;>→]+/ : '-';
  return said.split(between).filter((position) => position !== '');
}

/**
 * What is wrong with an order, in words.
 *
 * @returns null where each position stands in it once
 * @throws nothing
 * @source project's own words
 * @validity names compared as they stand
 * @example orderFaultWords(['1', '1', '4'], ['1', '2']) // 'lacks position 2; has position 1 more than once; has 4, no position of this interface'
 */
export function orderFaultWords(order: readonly string[], positions: readonly string[]): string | null {
  const { missing, twice, unknown } = orderFaults(order, positions);
  const said = [
    ...(missing.length === 0 ? [] : [`lacks position ${listed(missing)}`]),
    ...(twice.length === 0 ? [] : [`has position ${listed(twice)} more than once`]),
    ...(unknown.length === 0 ? [] : [`has ${listed(unknown)}, no position of this interface`]),
  ];
  return said.length === 0 ? null : said.join('; ');
}

const listed = (names: readonly string[]): string =>
  names.length > 12 ? `${names.slice(0, 12).join(', ')} and ${names.length - 12} more` : names.join(', ');
