import { RefusedError } from '../errors.ts';
import { convertValue, readQuantity } from '../units/index.ts';

/** A place of a fastener in its pattern, seen from the side of the heads: x to the right, y up. */
export interface PatternPoint {
  position: string;
  xMm: number;
  yMm: number;
}

const form = 'as "circle 120 mm", or "1: 0 mm, 0 mm; 2: 60 mm, 0 mm"';

/**
 * Where the positions of a pattern lie, out of the words that an interface or a callout has for it.
 *
 *   "circle D": position k of n at the angle (k − 1)/n·360°, clockwise from the top;  x = D/2·sin, y = D/2·cos
 *
 * @param text - "circle 120 mm", "circle 5.5 in from 30 deg", or each position with its place, x then y
 * @param positions - names, in their order; a circle is divided among them
 * @returns a point for each position that has a place
 * @throws RefusedError where the text is neither, or gives a position twice
 * @source project's own words
 * @validity positions in one plane
 * @example readPattern('circle 100 mm', ['1', '2']) // 1 at (0, 50), 2 at (0, −50)
 */
export function readPattern(text: string, positions: readonly string[]): PatternPoint[] {
  const circle = /^circle\s+(?<diameter>.+?)(?:\s+from\s+(?<from>.+))?$/i.exec(text.trim())?.groups;
  if (circle !== undefined) {
    const radiusMm = lengthMm(circle['diameter'] ?? '') / 2;
    if (radiusMm <= 0) throw refused(text);
    const from = circle['from'] === undefined ? 0 : radians(circle['from']);
    return positions.map((position, at) => {
      const angle = from + (2 * Math.PI * at) / positions.length;
      return { position, xMm: radiusMm * Math.sin(angle), yMm: radiusMm * Math.cos(angle) };
    });
  }
  const points = text
    .split(/[;\n]/)
    .filter((part) => part.trim() !== '')
    .map((part): PatternPoint => {
      const [, position, x, y] = /^\s*([^:]+):\s*([^,]+),\s*([^,]+)$/.exec(part) ?? [];
      if (position === undefined || x === undefined || y === undefined) throw refused(part.trim());
      return { position: position.trim(), xMm: lengthMm(x), yMm: lengthMm(y) };
    });
  if (points.length === 0) throw refused(text);
  const names = new Set(points.map(({ position }) => position));
  if (names.size < points.length)
    throw new RefusedError({ code: 'duplicate-id', message: `the pattern has a position twice`, value: text });
  return points;
}

function lengthMm(text: string): number {
  const { value, unit } = readQuantity(text.trim(), 'length');
  return convertValue(value, unit, 'mm');
}

function radians(text: string): number {
  const { value, unit } = readQuantity(text.trim(), 'angle');
  return convertValue(value, unit, 'rad');
}

function refused(value: string): RefusedError {
  return new RefusedError({ code: 'wrong-shape', message: `is no pattern of positions, ${form}`, value });
}
