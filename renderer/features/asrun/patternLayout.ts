import type { AsRunLine } from '../../../shared-types/inspection.ts';
import { RefusedError } from '../../engine/errors.ts';
import { readPattern } from '../../engine/inspection/index.ts';

/** One position of a pattern as it is drawn. */
export interface DrawnPosition {
  position: string;
  px: number;
  py: number;
  /** Null where nothing is recorded of it. */
  line: AsRunLine | null;
  /** Place in the order asked for, from 1; null where none is. */
  asked: number | null;
  /** Place in the order recorded, from 1; null where the times do not tell. */
  recorded: number | null;
}

export interface PatternLayout {
  positions: DrawnPosition[];
  /** px for one mm; null where the places are a ring of our own. */
  scale: number | null;
  /** Why it is not to scale. */
  why: string | null;
  /** Too near for words beside each. */
  isDense: boolean;
  heightPx: number;
}

export interface PatternData {
  lines: readonly AsRunLine[];
  order: readonly string[];
  /** As the callout or the interface writes it; null where neither does. */
  pattern: string | null;
}

/** Room for the words beside a position. */
const [marginX, marginY] = [70, 54];
/** Words of positions nearer than this would stand over each other. */
const wordsPx = 96;
const ringMost = 170;

/** Names by their numbers: 9 before 10. */
function byName(one: string, other: string): number {
  return one.localeCompare(other, 'en', { numeric: true });
}

/** Places in the order of the times; none where any time is missing or two are the same. */
function recordedOrder(lines: readonly AsRunLine[]): Map<string, number> {
  const times = new Set(lines.map(({ time }) => time));
  const isDated = lines.every(({ time }) => /^\d{4}-\d{2}-\d{2}[T ]\d{2}:\d{2}/.test(time));
  if (!isDated || times.size < lines.length) return new Map();
  const sorted = lines.toSorted((a, b) => (a.time < b.time ? -1 : 1));
  return new Map(sorted.map(({ position }, at) => [position, at + 1]));
}

/** Where everything of the chart of a fastener pattern lies. To scale where the pattern is known; else a ring that says it is none. */
export function patternLayout({ lines, order, pattern }: PatternData, widthPx: number): PatternLayout {
  const named = [...new Set([...order, ...lines.map(({ position }) => position)])].toSorted(byName);
  const byPosition = new Map(lines.map((line) => [line.position, line]));
  const recorded = recordedOrder(lines);
  const asked = new Map(order.map((position, at) => [position, at + 1]));
  const { places, why } = placesOf(pattern, named);
  const xs = places.map(({ x }) => x);
  const ys = places.map(({ y }) => y);
  const [left, right, low, high] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const room = Math.max(120, widthPx - 2 * marginX);
  const most = ringMost * 2 + Math.max(0, named.length - 12) * 24;
  const per = Math.min(room / Math.max(right - left, 1e-9), most / Math.max(high - low, right - left, 1e-9));
  const offset = (widthPx - (right - left) * per) / 2;
  return {
    positions: places.map(({ position, x, y }) => ({
      position,
      px: offset + (x - left) * per,
      py: marginY + (high - y) * per,
      line: byPosition.get(position) ?? null,
      asked: asked.get(position) ?? null,
      recorded: recorded.get(position) ?? null,
    })),
    scale: why === null ? per : null,
    why,
    isDense: nearestOf(places) * per < wordsPx,
    heightPx: 2 * marginY + (high - low) * per + 32,
  };
}

/** How near the two nearest positions lie; of one alone, nothing is near. */
function nearestOf(places: readonly { x: number; y: number }[]): number {
  let nearest = Number.POSITIVE_INFINITY;
  for (const [at, one] of places.entries())
    for (const other of places.slice(at + 1)) nearest = Math.min(nearest, Math.hypot(one.x - other.x, one.y - other.y));
  return nearest;
}

interface Places {
  places: { position: string; x: number; y: number }[];
  why: string | null;
}

function placesOf(pattern: string | null, named: readonly string[]): Places {
  if (pattern === null) return ring(named, 'neither the interface nor the callout says where its positions lie');
  try {
    const points = readPattern(pattern, named);
    const held = new Set(points.map(({ position }) => position));
    const lost = named.filter((position) => !held.has(position));
    if (lost.length > 0) return ring(named, `the pattern “${pattern}” has no place for position ${lost.join(', ')}`);
    return { places: points.map(({ position, xMm, yMm }) => ({ position, x: xMm, y: yMm })), why: null };
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    return ring(named, `“${pattern}” ${error.refusal.message}`);
  }
}

function ring(named: readonly string[], why: string): Places {
  const radius = named.length === 1 ? 0 : 1;
  const places = named.map((position, at) => {
    const angle = (2 * Math.PI * at) / named.length;
    return { position, x: radius * Math.sin(angle), y: radius * Math.cos(angle) };
  });
  return { places, why };
}
