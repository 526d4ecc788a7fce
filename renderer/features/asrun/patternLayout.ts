import type { AsRunLine } from '../../../shared-types/inspection.ts';
import { RefusedError } from '../../engine/errors.ts';
import { positionNames, readPattern } from '../../engine/pattern/index.ts';
import { numberPlaces } from './patternNumbers.ts';
import type { NumberPlace } from './patternNumbers.ts';
import type { KnownPattern } from './patternOf.ts';

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
  /** Where its number stands beside its mark; null where it stands in it, or there is no room. */
  number: NumberPlace | null;
}

/** `words`: state and torque beside each; `names`: the number in the mark; `marks`: a small mark, its number beside it. */
export type PatternSize = 'words' | 'names' | 'marks';

export interface PatternLayout {
  positions: DrawnPosition[];
  /** px for one mm; null where the places are a ring of our own. */
  scale: number | null;
  /** Why it is not to scale. */
  why: string | null;
  size: PatternSize;
  heightPx: number;
}

export interface PatternData {
  lines: readonly AsRunLine[];
  order: readonly string[];
  /** As the callout or the interface writes it; null where neither does. */
  pattern: KnownPattern | null;
}

/** Room for the words beside a position; numbers alone take less. */
const margins = { words: [70, 54], numbers: [38, 38] } as const;
/** From so many positions on, no words are asked for. */
const wordsMost = 24;
/** Nearer than this, words would stand over each other; and names in their marks. */
const [wordsPx, namesPx] = [96, 46];
/** A small mark is 20 px wide. */
const marksPx = 22;
const ringMost = 170;
const tallMost = 700;
/** More positions than a chart shows are not filled up by their count. */
const countedMost = 96;
/** A wider drawing is no chart any more. */
const widthMost = 1600;

/** Names by their numbers: 9 before 10. */
function byName(one: string, other: string): number {
  return one.localeCompare(other, 'en', { numeric: true });
}

/** Every position that is asked for or recorded. */
export function positionsOf({ lines, order }: Pick<PatternData, 'lines' | 'order'>): string[] {
  return [...new Set([...order, ...lines.map(({ position }) => position)])].toSorted(byName);
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
export function patternLayout(data: PatternData, widthPx: number): PatternLayout {
  const { lines, order, pattern } = data;
  const named = positionsOf(data);
  const byPosition = new Map(lines.map((line) => [line.position, line]));
  const recorded = recordedOrder(lines);
  const asked = new Map(order.map((position, at) => [position, at + 1]));
  const { places, why } = placesOf(pattern, named);
  const { left, right, low, high } = extentOf(places);
  const [marginX, marginY] = places.length > wordsMost ? margins.numbers : margins.words;
  const room = Math.max(120, widthPx - 2 * marginX);
  const most = Math.min(tallMost, ringMost * 2 + Math.max(0, places.length - 12) * 24);
  const fits = Math.min(room / Math.max(right - left, 1e-9), most / Math.max(high - low, right - left, 1e-9));
  const nearest = nearestOf(places);
  // A tall pattern may grow past the usual height, as far as the width lets it, until its marks stand apart.
  const per = Math.max(fits, Math.min(marksPx / nearest, room / Math.max(right - left, 1e-9)));
  const offset = (widthPx - (right - left) * per) / 2;
  const spots = places.map(({ position, x, y }) => ({
    position,
    px: offset + (x - left) * per,
    py: marginY + (high - y) * per,
  }));
  const size = nearest * per >= wordsPx ? 'words' : nearest * per >= namesPx ? 'names' : 'marks';
  const numbers = size === 'marks' ? numberPlaces(spots, widthPx) : new Map<string, NumberPlace>();
  return {
    positions: spots.map((spot) => ({
      ...spot,
      line: byPosition.get(spot.position) ?? null,
      asked: asked.get(spot.position) ?? null,
      recorded: recorded.get(spot.position) ?? null,
      number: numbers.get(spot.position) ?? null,
    })),
    scale: why === null ? per : null,
    why,
    size,
    heightPx: 2 * marginY + (high - low) * per + 32,
  };
}

/**
 * The least width at which no mark stands over another and every number has its room.
 *
 * @returns null where a drawing would have to be wider than anybody would scroll
 */
export function patternWidthPx(data: PatternData, leastPx: number): number | null {
  const { places } = placesOf(data.pattern, positionsOf(data));
  const { left, right } = extentOf(places);
  const nearest = nearestOf(places);
  if (nearest === 0) return null;
  for (const apartPx of [marksPx, 26, 30, 36, namesPx]) {
    const [marginX] = places.length > wordsMost ? margins.numbers : margins.words;
    const widthPx = Math.max(leastPx, Math.ceil((apartPx / nearest) * (right - left) + 2 * marginX));
    if (widthPx > widthMost) return null;
    const { positions, size } = patternLayout(data, widthPx);
    const isApart = apartOf(positions) >= marksPx - 1e-6;
    if (isApart && (size !== 'marks' || positions.every(({ number }) => number !== null))) return widthPx;
  }
  return null;
}

function extentOf(places: readonly { x: number; y: number }[]) {
  const xs = places.map(({ x }) => x);
  const ys = places.map(({ y }) => y);
  return { left: Math.min(...xs), right: Math.max(...xs), low: Math.min(...ys), high: Math.max(...ys) };
}

const apartOf = (spots: readonly { px: number; py: number }[]): number =>
  nearestOf(spots.map(({ px, py }) => ({ x: px, y: py })));

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

function placesOf(pattern: KnownPattern | null, named: readonly string[]): Places {
  if (pattern === null) return ring(named, 'neither the interface nor the callout says where its positions lie');
  const { text } = pattern;
  try {
    const points = readPattern(text, dividedAmong(pattern, named));
    const held = new Set(points.map(({ position }) => position));
    const lost = named.filter((position) => !held.has(position));
    if (lost.length > 0) return ring(named, `the pattern “${text}” has no place for position ${lost.join(', ')}`);
    return { places: points.map(({ position, xMm, yMm }) => ({ position, x: xMm, y: yMm })), why: null };
  } catch (error) {
    if (!(error instanceof RefusedError)) throw error;
    return ring(named, `“${text}” ${error.refusal.message}`);
  }
}

/** Numbers up to the count, where every name is one of them. */
function dividedAmong({ count = 0 }: KnownPattern, named: readonly string[]): readonly string[] {
  const all = positionNames(Math.min(count, countedMost));
  const known = new Set(all);
  return named.every((position) => known.has(position)) ? all : named;
}

function ring(named: readonly string[], why: string): Places {
  const radius = named.length === 1 ? 0 : 1;
  const places = named.map((position, at) => {
    const angle = (2 * Math.PI * at) / named.length;
    return { position, x: radius * Math.sin(angle), y: radius * Math.cos(angle) };
  });
  return { places, why };
}
