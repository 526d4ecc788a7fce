import { RefusedError } from '../errors.ts';
import { quantityIn } from '../units/index.ts';
import { parsePattern } from './pattern.ts';
import type { Pattern, Turn } from './pattern.ts';

/** A place of a fastener in its pattern, seen from the side of the heads: x to the right, y up. */
export interface PatternPoint {
  position: string;
  xMm: number;
  yMm: number;
}

/**
 * Where the positions of a pattern lie, out of the words that an interface or a callout has for it.
 *
 *   circle D: position k of n at the angle a + (k − 1)/n·360°, clockwise from the top;  x = D/2·sin, y = D/2·cos
 *   grid, frame: the middle of the whole lies at (0, 0)
 *
 * @param text - as parsePattern takes it
 * @param positions - names, in their order; a circle is divided among them; places of a grid or a frame are numbered from 1
 * @returns a point for each position that has a place
 * @throws RefusedError where the text is no pattern, a length in it cannot be read, or a circle or a grid has no extent
 * @source project's own words
 * @validity positions in one plane
 * @example readPattern('circle 100 mm', ['1', '2']) // 1 at (0, 50), 2 at (0, −50)
 */
export function readPattern(text: string, positions: readonly string[]): PatternPoint[] {
  return pointsOf(parsePattern(text), positions);
}

/**
 * The names of so many positions: their numbers.
 *
 * @param count - how many, from 0
 * @returns "1" to the count
 * @throws nothing
 * @source project's own words
 * @validity counts from 0
 * @example positionNames(3) // ['1', '2', '3']
 */
export function positionNames(count: number): string[] {
  return Array.from({ length: count }, (_, at) => String(at + 1));
}

/**
 * The positions of an interface, in the order of their numbers.
 *
 * @param x.pattern - in words; without one, positions are numbered
 * @param x.count - how many, from 1
 * @returns the names that the pattern gives its places, or else the numbers up to the count
 * @throws RefusedError where the pattern cannot be read
 * @source project's own words
 * @validity any interface
 * @example positionsOf({ pattern: 'circle 100 mm', count: 3 }) // ['1', '2', '3']
 */
export function positionsOf({ pattern = '', count }: { pattern?: string | undefined; count: number }): string[] {
  if (pattern.trim() === '') return positionNames(count);
  const parsed = parsePattern(pattern);
  return parsed.kind === 'points' ? parsed.points.map(({ position }) => position) : positionNames(count);
}

function pointsOf(pattern: Pattern, positions: readonly string[]): PatternPoint[] {
  if (pattern.kind === 'circle') {
    const radiusMm = extentMm(pattern.diameter, 'a circle') / 2;
    const from = pattern.from === null ? 0 : quantityIn(pattern.from, 'angle', 'rad');
    const way = turning(pattern.turn);
    return positions.map((position, at) => {
      const angle = from + (way * 2 * Math.PI * at) / positions.length;
      return { position, xMm: radiusMm * Math.sin(angle), yMm: radiusMm * Math.cos(angle) };
    });
  }
  if (pattern.kind === 'points')
    return pattern.points.map(({ position, x, y }) => ({
      position,
      xMm: quantityIn(x, 'length', 'mm'),
      yMm: quantityIn(y, 'length', 'mm'),
    }));
  const { rows, columns } = pattern;
  const acrossMm = extentMm(pattern.across, 'a distance between neighbours');
  const upMm = extentMm(pattern.up, 'a distance between neighbours');
  const cells = pattern.kind === 'grid' ? allCells(rows, columns) : rimCells(rows, columns, pattern.turn);
  return cells.map(({ row, column }, at) => ({
    position: String(at + 1),
    xMm: (column - (columns - 1) / 2) * acrossMm,
    yMm: ((rows - 1) / 2 - row) * upMm,
  }));
}

const turning = (turn: Turn): number => (turn === 'clockwise' ? 1 : -1);

interface Cell {
  row: number;
  column: number;
}

function allCells(rows: number, columns: number): Cell[] {
  return Array.from({ length: rows * columns }, (_, at) => ({ row: Math.floor(at / columns), column: at % columns }));
}

/** The rim of a grid from its top left: along the top first where numbers run clockwise, down the left side where they do not. */
function rimCells(rows: number, columns: number, turn: Turn): Cell[] {
  const all = allCells(rows, columns);
  const top = all.filter(({ row }) => row === 0);
  const right = all.filter(({ row, column }) => row > 0 && column === columns - 1);
  const bottom = all.filter(({ row, column }) => row > 0 && row === rows - 1 && column < columns - 1).toReversed();
  const left = all.filter(({ row, column }) => columns > 1 && row > 0 && row < rows - 1 && column === 0).toReversed();
  const [first, ...rest] = [...top, ...right, ...bottom, ...left];
  if (first === undefined) return [];
  return turn === 'clockwise' ? [first, ...rest] : [first, ...rest.toReversed()];
}

function extentMm(text: string, what: string): number {
  const mm = quantityIn(text, 'length', 'mm');
  if (mm > 0) return mm;
  throw new RefusedError({ code: 'out-of-range', message: `${what} must be more than 0`, value: text });
}
