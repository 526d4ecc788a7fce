import { textWidthPx } from '../../components/StackDrawing/labels.ts';

/** Middle of a number that stands beside its mark. */
export interface NumberPlace {
  px: number;
  py: number;
}

interface Spot {
  position: string;
  px: number;
  py: number;
}

interface Box {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

/** Half the width of a small mark, and of the height of a number. */
export const markRadiusPx = 10;
const halfTextPx = 7;
const gapPx = 2;
const quarter = Math.PI / 2;
/** The four sides of a mark; then its corners, where a number is furthest from it. */
const sides = [0, quarter, 2 * quarter, 3 * quarter];
const corners = sides.map((angle) => angle + quarter / 2);

/** A number no wider than its place: long names are cut, the table has them whole. */
export function numberText(position: string): string {
  return position.length > 6 ? `${position.slice(0, 5)}…` : position;
}

/**
 * Where each number stands: outwards from the middle of the pattern where that is free, else on the next side that is; never over
 * another mark or number, nor outside the drawing. Those for which no side is free have no place.
 */
export function numberPlaces(spots: readonly Spot[], widthPx: number): Map<string, NumberPlace> {
  const marks = spots.map(({ px, py }) => boxAround(px, py, markRadiusPx, markRadiusPx));
  const [middleX, middleY] = [mean(spots.map(({ px }) => px)), mean(spots.map(({ py }) => py))];
  const taken: Box[] = [...marks];
  const places = new Map<string, NumberPlace>();
  for (const { position, px, py } of spots) {
    const outwards = Math.atan2(py - middleY, px - middleX);
    const halfWidth = textWidthPx(numberText(position), 12) / 2;
    for (const angle of [outwards, ...nearestTo(outwards, sides), ...nearestTo(outwards, corners)]) {
      const place = beside({ px, py }, angle, halfWidth);
      const box = boxAround(place.px, place.py, halfWidth, halfTextPx);
      const isInside = box.left >= 0 && box.right <= widthPx && box.top >= 0;
      if (!isInside || taken.some((other) => overlap(box, other))) continue;
      taken.push(box);
      places.set(position, place);
      break;
    }
  }
  return places;
}

/** Angles by how far they turn away from one. */
function nearestTo(angle: number, among: readonly number[]): number[] {
  const away = (other: number): number => -Math.cos(other - angle);
  return among.toSorted((a, b) => away(a) - away(b));
}

/** So far in a direction that the text just stands clear of its own mark. */
function beside({ px, py }: NumberPlace, angle: number, halfWidth: number): NumberPlace {
  const [x, y] = [Math.cos(angle), Math.sin(angle)];
  const reach = Math.min(
    (markRadiusPx + gapPx + halfWidth) / Math.max(Math.abs(x), 1e-9),
    (markRadiusPx + gapPx + halfTextPx) / Math.max(Math.abs(y), 1e-9),
  );
  return { px: px + x * reach, py: py + y * reach };
}

const boxAround = (px: number, py: number, halfWidth: number, halfHeight: number): Box => ({
  ...{ left: px - halfWidth, right: px + halfWidth, top: py - halfHeight, bottom: py + halfHeight },
});

const overlap = (a: Box, b: Box): boolean =>
  a.left < b.right - 1e-6 && b.left < a.right - 1e-6 && a.top < b.bottom - 1e-6 && b.top < a.bottom - 1e-6;

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
