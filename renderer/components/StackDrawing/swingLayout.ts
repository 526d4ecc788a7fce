import { arc, circle, closed, line, onCircle, type Outline, type Point } from './outline.ts';
import type { SwingShape } from './stackShape.ts';

export interface SwingLayout {
  sizePx: number;
  outlines: Outline[];
}

const sizePx = 196;
const fieldPx = 82;

/** The tool from its own end, along the axis: its lever, the room around it and the free swing, to one scale. */
export function swingLayout(swing: SwingShape): SwingLayout {
  const centre: Point = [sizePx / 2, sizePx / 2];
  const { roomMm, leverMm, swingDeg, stepDeg } = swing;
  const longestMm = Math.max(roomMm ?? 0, leverMm ?? 0);
  const pxPerMm = longestMm > 0 ? fieldPx / longestMm : 0;
  const leverPx = leverMm === null ? fieldPx * 0.85 : leverMm * pxPerMm;
  const roomPx = roomMm === null ? null : roomMm * pxPerMm;
  const outlines: Outline[] = [];
  const sectorPx = roomPx ?? Math.min(leverPx * 1.08, fieldPx);
  const half = swingDeg === null ? null : Math.min(swingDeg, 360) / 2;
  if (half !== null && half < 180) {
    const [x1, y1] = onCircle(centre, sectorPx, -half);
    outlines.push({
      d: `M${centre[0]} ${centre[1]}L${x1} ${y1}${arc(centre, sectorPx, -half, half).replace(/^M[^A]*/, '')}Z`,
      ink: 'narrow',
      fill: 'steel',
      of: 'free swing',
    });
  }
  if (roomPx !== null)
    outlines.push({ d: circle(centre[0], centre[1], roomPx), ink: 'hidden', fill: 'none', of: 'room' });
  const startDeg = half === null ? -stepDeg / 2 : -half;
  const endDeg = startDeg + stepDeg;
  const tooFar = swingDeg !== null && stepDeg > swingDeg + 1e-9;
  outlines.push({
    ...lever(centre, leverPx, endDeg),
    ink: tooFar ? 'jam' : 'other',
    fill: tooFar ? 'jam' : 'none',
    of: 'next grip',
  });
  outlines.push({ ...lever(centre, leverPx, startDeg), ink: 'visible', fill: 'tool', of: 'lever' });
  if (roomPx !== null && leverPx > roomPx + 0.5) {
    outlines.push({ ...beyond(centre, roomPx, leverPx, startDeg), ink: 'jam', fill: 'jam', of: 'beyond the room' });
  }
  outlines.push({ d: circle(centre[0], centre[1], 13), ink: 'visible', fill: 'tool', of: 'tool head' });
  const corners = [0, 60, 120, 180, 240, 300].map((deg) => onCircle(centre, 6.5, deg + 30));
  outlines.push({ d: closed(...corners), ink: 'touched', fill: 'brass', of: 'head' });
  outlines.push({
    d: line([centre[0] - 20, centre[1]], [centre[0] + 20, centre[1]]),
    ink: 'centre',
    fill: 'none',
    of: 'axis',
  });
  outlines.push({
    d: line([centre[0], centre[1] - 20], [centre[0], centre[1] + 20]),
    ink: 'centre',
    fill: 'none',
    of: 'axis',
  });
  return { sizePx, outlines };
}

const leverHalfPx = 5;

function lever(centre: Point, lengthPx: number, deg: number): { d: string } {
  return beyond(centre, 8, lengthPx, deg);
}

function beyond(centre: Point, fromPx: number, toPx: number, deg: number): { d: string } {
  const along = (radius: number, side: number): Point => {
    const [x, y] = onCircle(centre, radius, deg);
    const [ux, uy] = onCircle([0, 0], leverHalfPx * side, deg + 90);
    return [x + ux, y + uy];
  };
  return { d: closed(along(fromPx, -1), along(toPx, -1), along(toPx, 1), along(fromPx, 1)) };
}
