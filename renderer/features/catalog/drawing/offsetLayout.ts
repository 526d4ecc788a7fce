import { dimension, textWidthPx } from '../../../components/StackDrawing/labels.ts';
import type { PlacedText } from '../../../components/StackDrawing/labels.ts';
import { box, circle, line } from '../../../components/StackDrawing/outline.ts';
import type { Outline, Point } from '../../../components/StackDrawing/outline.ts';
import { scaleBar } from '../../../components/StackDrawing/scaleBar.ts';
import { squareEnd } from './endViews.ts';
import type { OffsetShape } from './itemShape.ts';
import type { ItemTexts } from './itemTexts.ts';
import type { ItemLayout } from './laidItem.ts';

const edgePx = 24;
const gapPx = 60;
const topPx = 66;
const pxPerMmMax = 9;
const radiusMostPx = 62;
/** The square stands out beyond the length, so far at most. */
const squareMostPx = 30;

/** An offset head along its axes, from the tool's side, and from the right beside it: third angle. */
export function offsetLayout(shape: OffsetShape, texts: ItemTexts, widthPx: number): ItemLayout {
  const { lengthMm, outsideMm, driveInMm, driveOutMm, offsetMm } = shape;
  const apartMm = offsetMm ?? outsideMm * 2;
  // Beside a short head's own dimension stands its text.
  const textPx = textWidthPx(texts.length ?? '') + 24;
  const room = widthPx - 2 * edgePx - gapPx - squareMostPx - 40 - textPx;
  const pxPerMm = Math.min(room / (apartMm + outsideMm + lengthMm), radiusMostPx / (outsideMm / 2), pxPerMmMax);
  const radiusPx = (outsideMm / 2) * pxPerMm;
  const y = topPx + radiusPx;
  const spare = Math.max(0, room - (apartMm + outsideMm + lengthMm) * pxPerMm) / 2;
  const inAt: Point = [edgePx + 40 + radiusPx + spare, y];
  const outAt: Point = [inAt[0] + apartMm * pxPerMm, y];
  const sideX = outAt[0] + radiusPx + gapPx;
  const sideEnd = sideX + lengthMm * pxPerMm;
  const half = (driveOutMm / 2) * pxPerMm;
  const out = Math.min(driveOutMm * pxPerMm, squareMostPx);
  const hiddenSquare = [outAt[0] - half, y - half, outAt[0] + half, y + half] as const;
  const outlines: Outline[] = [
    ...web(inAt, outAt, radiusPx, offsetMm === null),
    { d: circle(outAt[0], y, radiusPx), ink: 'visible', fill: 'steel', of: 'boss' },
    { d: box(...hiddenSquare), ink: 'hidden', fill: 'none', of: 'square out' },
    ...squareEnd({ centre: inAt, radiusPx, pxPerMm }, driveInMm, false),
    { d: line([outAt[0], y - radiusPx - 10], [outAt[0], y + radiusPx + 10]), ink: 'centre', fill: 'none', of: 'axis' },
    { d: box(sideX, y - radiusPx, sideEnd, y + radiusPx), ink: 'visible', fill: 'steel', of: 'side' },
    { d: box(sideEnd, y - half, sideEnd + out, y + half), ink: 'visible', fill: 'tool', of: 'square' },
    { d: line([sideX - 16, y], [sideEnd + out + 12, y]), ink: 'centre', fill: 'none', of: 'axis' },
  ];
  const bottom = y + radiusPx;
  const offsetY = bottom + 40;
  const rowY = offsetY + 22;
  const between = offsetMm === null || texts.offset === null ? null : texts.offset;
  const dimensions = [
    ...(between === null
      ? []
      : [dimension({ fromPx: inAt[0], toPx: outAt[0], y: offsetY, text: between, beside: 'right' })]),
    dimension({ fromPx: sideX, toPx: sideEnd, y: rowY, text: texts.length ?? '', beside: 'right' }),
  ];
  const witness = [
    ...(between === null ? [] : [inAt[0], outAt[0]].map((x) => line([x, bottom + 12], [x, offsetY + 5]))),
    ...[sideX, sideEnd].map((x) => line([x, bottom + 3], [x, rowY + 5])),
  ];
  const above = (x: number, text: string | null, row = 0): PlacedText[] =>
    text === null ? [] : [{ x, y: y - radiusPx - 18 - row * 18, anchor: 'middle', lines: [text] }];
  return {
    widthPx,
    heightPx: rowY + 44,
    outlines,
    dimensions,
    witness,
    notes: [
      ...above(inAt[0], texts.driveIn),
      ...above(sideEnd + out / 2, texts.out),
      ...above(outAt[0], texts.diameter, 1),
    ],
    scale: scaleBar({ pxPerMm, unit: texts.unit, x: edgePx, y: rowY + 32 }),
    broken: offsetMm === null,
  };
}

/** What joins the two ends; broken where it is not said how far apart they are. */
function web(from: Point, to: Point, radiusPx: number, broken: boolean): Outline[] {
  const half = radiusPx * 0.8;
  const [y, middle] = [from[1], (from[0] + to[0]) / 2];
  const bar: Outline = {
    d: box(from[0], y - half, to[0], y + half),
    ...{ ink: 'visible', fill: 'steel', of: 'web' },
  };
  if (!broken) return [bar];
  const cut = (x: number): Outline => ({
    d: line([x, y - half - 6], [x + 5, y - 4], [x - 5, y + 4], [x, y + half + 6]),
    ...{ ink: 'narrow', fill: 'none', of: 'break' },
  });
  return [bar, cut(middle - 3), cut(middle + 3)];
}
