import { RefusedError } from '../errors.ts';

/** Which way numbers run, seen from the side of the heads. */
export type Turn = 'clockwise' | 'counterclockwise';

/**
 * Where the positions of an interface lie, in words as typed, not yet read as lengths. `grid`: rows of columns, numbered along each row from
 * the top left. `frame`: the rim of such a grid, numbered around from the top left. `points`: every place for itself.
 */
export type Pattern =
  | { kind: 'circle'; diameter: string; from: string | null; turn: Turn }
  | { kind: 'grid'; rows: number; columns: number; across: string; up: string }
  | { kind: 'frame'; rows: number; columns: number; across: string; up: string; turn: Turn }
  | { kind: 'points'; points: readonly { position: string; x: string; y: string }[] };

/** A grid has no more places than that; nobody numbers more. */
const placesMost = 1000;

const forms =
  'as "circle 120 mm from 30 deg", "grid 3 by 4, 40 mm by 30 mm", "frame 3 by 4, 40 mm by 30 mm" or "1: 0 mm, 0 mm; 2: 60 mm, 0 mm"';

const turnWords = '(?:\\s*,?\\s+(?<turn>clockwise|counterclockwise))?';
const circleForm = new RegExp(`^circle\\s+(?<diameter>.+?)(?:\\s+from\\s+(?<from>.+?))?${turnWords}$`, 'i');
const gridForm = new RegExp(
  `^(?<kind>grid|frame)\\s+(?<rows>\\d+)\\s*(?:by|x|×)\\s*(?<columns>\\d+)\\s*,\\s*(?<across>.+?)\\s+(?:by|x|×)\\s+(?<up>.+?)${turnWords}$`,
  'i',
);

/**
 * The words of a pattern taken apart; the one place that knows how they are written.
 *
 * @param text - "circle 5.5 in", "circle 120 mm from 30 deg counterclockwise", "grid 3 by 4, 40 mm by 30 mm" (rows by columns; apart across,
 *   apart up), "frame 3 by 4, 40 mm by 30 mm", or each position with its place, x then y
 * @returns the pattern in its own words
 * @throws RefusedError wrong-shape where the text is none of these; out-of-range where a grid is no grid; duplicate-id where a position
 *   stands in it twice
 * @source project's own words
 * @validity positions in one plane, seen from the side of the heads
 * @example parsePattern('circle 100 mm') // { kind: 'circle', diameter: '100 mm', from: null, turn: 'clockwise' }
 */
export function parsePattern(text: string): Pattern {
  const said = text.trim();
  const circle = circleForm.exec(said)?.groups;
  if (circle !== undefined)
    return {
      kind: 'circle',
      diameter: circle['diameter'] ?? '',
      from: circle['from'] ?? null,
      turn: turnOf(circle['turn']),
    };
  const grid = gridForm.exec(said)?.groups;
  if (grid !== undefined) return gridOf(grid, said);
  if (/^(?:circle|grid|frame)\b(?!\s*:)/i.test(said)) throw refused(said);
  return { kind: 'points', points: pointsOf(said) };
}

/**
 * A pattern written as `parsePattern` reads it.
 *
 * @returns the text; numbers that run clockwise are not said to
 * @throws nothing
 * @source project's own words
 * @validity any pattern that parsePattern gives
 * @example patternText({ kind: 'circle', diameter: '100 mm', from: null, turn: 'clockwise' }) // "circle 100 mm"
 */
export function patternText(pattern: Pattern): string {
  const turned = 'turn' in pattern && pattern.turn === 'counterclockwise' ? ' counterclockwise' : '';
  if (pattern.kind === 'circle')
    return `circle ${pattern.diameter}${pattern.from === null ? '' : ` from ${pattern.from}`}${turned}`;
  if (pattern.kind === 'points')
    return pattern.points.map(({ position, x, y }) => `${position}: ${x}, ${y}`).join('; ');
  const { kind, rows, columns, across, up } = pattern;
  return `${kind} ${rows} by ${columns}, ${across} by ${up}${turned}`;
}

/**
 * How many places a pattern has by itself.
 *
 * @returns the number; null for a circle, which is divided among the positions there are
 * @throws nothing
 * @source project's own words
 * @validity any pattern that parsePattern gives
 * @example placesIn({ kind: 'frame', rows: 3, columns: 4, across: '40 mm', up: '30 mm', turn: 'clockwise' }) // 10
 */
export function placesIn(pattern: Pattern): number | null {
  if (pattern.kind === 'circle') return null;
  if (pattern.kind === 'points') return pattern.points.length;
  const { rows, columns } = pattern;
  return pattern.kind === 'grid' ? rows * columns : rows * columns - Math.max(0, rows - 2) * Math.max(0, columns - 2);
}

function turnOf(word: string | undefined): Turn {
  return word?.toLowerCase() === 'counterclockwise' ? 'counterclockwise' : 'clockwise';
}

function gridOf(groups: Record<string, string | undefined>, said: string): Pattern {
  const [rows, columns] = [Number(groups['rows']), Number(groups['columns'])];
  const { across = '', up = '' } = groups;
  if (rows < 1 || columns < 1 || rows * columns > placesMost)
    throw new RefusedError({
      code: 'out-of-range',
      message: `has ${rows} rows and ${columns} columns: at least 1 of each, and at most ${placesMost} places`,
      value: said,
    });
  const sides = { rows, columns, across, up };
  if (groups['kind']?.toLowerCase() === 'frame') return { kind: 'frame', ...sides, turn: turnOf(groups['turn']) };
  if (groups['turn'] !== undefined)
    throw new RefusedError({
      code: 'wrong-shape',
      message: 'is a grid, whose numbers run along its rows: only those of a circle or a frame run around it',
      value: said,
    });
  return { kind: 'grid', ...sides };
}

function pointsOf(text: string): { position: string; x: string; y: string }[] {
  const points = text
    .split(/[;\n]/)
    .filter((part) => part.trim() !== '')
    .map((part) => {
      const [, position, x, y] = /^\s*([^:]+):\s*([^,]+),\s*([^,]+)$/.exec(part) ?? [];
      if (position === undefined || x === undefined || y === undefined) throw refused(part.trim());
      return { position: position.trim(), x: x.trim(), y: y.trim() };
    });
  if (points.length === 0) throw refused(text);
  const names = new Set(points.map(({ position }) => position));
  if (names.size < points.length)
    throw new RefusedError({ code: 'duplicate-id', message: 'the pattern has a position twice', value: text });
  return points;
}

function refused(value: string): RefusedError {
  return new RefusedError({ code: 'wrong-shape', message: `is no pattern of positions, ${forms}`, value });
}
