import type { PatternPoint } from '../../engine/pattern/index.ts';

/** A position as it is drawn. */
export interface PlanSpot {
  position: string;
  px: number;
  py: number;
  /** Place in the order of tightening, from 1; null where none is said. */
  turn: number | null;
}

export interface PlanLayout {
  spots: PlanSpot[];
  pxPerMm: number;
  /** Where 0, 0 of the pattern lies. */
  originPx: { x: number; y: number };
  /** Middle of the pattern's extent. */
  middlePx: { x: number; y: number };
  /** Radius of a mark; fasteners are marks, not to scale. */
  markPx: number;
  widthPx: number;
  heightPx: number;
}

const sidePx = 64;
const topPx = 76;
const bottomPx = 84;
const fieldMostPx = 300;
const pxPerMmMax = 9;
/** Marks are no larger, and no smaller. */
const [markMost, markLeast] = [14, 6];
/** Beside a mark stands the box with its place in the order. */
const boxRoomPx = 18;

export interface PlanSize {
  widthPx: number;
  /** The field holds at least so much, so that a place can be moved out of a small pattern. */
  leastMm?: number;
}

/** Places to one scale both ways, x to the right and y up. */
export function patternPlanLayout(
  points: readonly PatternPoint[],
  order: readonly string[],
  { widthPx, leastMm = 0 }: PlanSize,
): PlanLayout {
  const [left, right] = extentOf(points.map(({ xMm }) => xMm));
  const [low, high] = extentOf(points.map(({ yMm }) => yMm));
  const [wideMm, tallMm] = [Math.max(right - left, leastMm), Math.max(high - low, leastMm)];
  const pxPerMm = Math.min(
    (widthPx - 2 * sidePx) / Math.max(wideMm, 1e-9),
    fieldMostPx / Math.max(tallMm, 1e-9),
    pxPerMmMax,
  );
  const fieldPx = Math.max(tallMm * pxPerMm, 2 * markMost);
  const middlePx = { x: widthPx / 2, y: topPx + fieldPx / 2 };
  const originPx = {
    x: middlePx.x - ((left + right) / 2) * pxPerMm,
    y: middlePx.y + ((low + high) / 2) * pxPerMm,
  };
  const turns = new Map(order.map((position, at) => [position, at + 1]));
  const spots = points.map(({ position, xMm, yMm }) => ({
    position,
    px: originPx.x + xMm * pxPerMm,
    py: originPx.y - yMm * pxPerMm,
    turn: turns.get(position) ?? null,
  }));
  const room = nearestPx(spots) - (order.length > 0 ? boxRoomPx : 2);
  return {
    spots,
    pxPerMm,
    originPx,
    middlePx,
    markPx: Math.max(markLeast, Math.min(markMost, room / 2)),
    widthPx,
    heightPx: topPx + fieldPx + bottomPx,
  };
}

/** The place in the pattern that lies under a point of the drawing, as far in mm as one can aim. */
export function placeAt({ originPx, pxPerMm }: PlanLayout, at: { x: number; y: number }): { xMm: number; yMm: number } {
  return { xMm: Math.round((at.x - originPx.x) / pxPerMm), yMm: Math.round((originPx.y - at.y) / pxPerMm) };
}

function extentOf(values: readonly number[]): [number, number] {
  return values.length === 0 ? [0, 0] : [Math.min(...values), Math.max(...values)];
}

function nearestPx(spots: readonly PlanSpot[]): number {
  let nearest = Number.POSITIVE_INFINITY;
  for (const [at, one] of spots.entries())
    for (const other of spots.slice(at + 1))
      nearest = Math.min(nearest, Math.hypot(one.px - other.px, one.py - other.py));
  return nearest;
}
