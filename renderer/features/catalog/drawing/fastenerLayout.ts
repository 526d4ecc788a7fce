import { dimension } from '../../../components/StackDrawing/labels.ts';
import type { Dimension, PlacedText } from '../../../components/StackDrawing/labels.ts';
import { box, closed, line } from '../../../components/StackDrawing/outline.ts';
import type { Outline, Point } from '../../../components/StackDrawing/outline.ts';
import { scaleBar } from '../../../components/StackDrawing/scaleBar.ts';
import { headEnd } from './endViews.ts';
import type { FastenerShape } from './itemShape.ts';
import type { ItemTexts } from './itemTexts.ts';
import type { ItemLayout } from './laidItem.ts';

const edgePx = 24;
const gapPx = 90;
const topPx = 34;
const pxPerMmMax = 9;
const halfMostPx = 62;

/** A fastener from its head's end, and from the side beside it: third angle. The head's height is schematic. */
export function fastenerLayout(shape: FastenerShape, texts: ItemTexts, widthPx: number): ItemLayout {
  const { acrossMm, majorMm, lengthMm } = shape;
  const headMm = 0.65 * majorMm;
  const wideMm = Math.max(acrossMm / Math.cos(Math.PI / 6), 1.5 * majorMm);
  const shankMm = lengthMm ?? 2.5 * majorMm;
  const room = widthPx - 2 * edgePx - gapPx - 90;
  const pxPerMm = Math.min(room / (wideMm + headMm + shankMm), (2 * halfMostPx) / wideMm, pxPerMmMax);
  const endHalfPx = Math.max((wideMm / 2) * pxPerMm, 40);
  const centre: Point = [edgePx + endHalfPx + 10, topPx + Math.max((wideMm / 2) * pxPerMm, 30)];
  const { outlines: end, radiusPx } = headEnd({ centre, pxPerMm }, shape);
  const [x, y] = centre;
  const faceX = x + endHalfPx + gapPx;
  const seatX = faceX + headMm * pxPerMm;
  const tipX = seatX + shankMm * pxPerMm;
  const half = (majorMm / 2) * pxPerMm;
  const shank =
    lengthMm === null
      ? closed(
          [seatX, y - half],
          [tipX, y - half],
          [tipX + 5, y - half * 0.3],
          [tipX - 4, y + half * 0.3],
          [tipX, y + half],
          [seatX, y + half],
        )
      : box(seatX, y - half, tipX, y + half);
  const outlines: Outline[] = [
    ...end,
    { d: box(faceX, y - radiusPx, seatX, y + radiusPx), ink: 'visible', fill: 'brass', of: 'head side' },
    { d: shank, ink: 'visible', fill: 'brass', of: 'shank' },
    { d: line([faceX - 16, y], [tipX + 16, y]), ink: 'centre', fill: 'none', of: 'axis' },
  ];
  const bottom = y + Math.max(radiusPx, half);
  const rowY = bottom + 30;
  const flats = (acrossMm / 2) * pxPerMm;
  const dimensions: Dimension[] = [];
  const witness: string[] = [];
  if (texts.across !== null) {
    dimensions.push(dimension({ fromPx: x - flats, toPx: x + flats, y: rowY, text: texts.across, beside: 'right' }));
    for (const at of [x - flats, x + flats]) witness.push(line([at, y + 4], [at, rowY + 5]));
  }
  if (texts.length !== null && lengthMm !== null) {
    dimensions.push(dimension({ fromPx: seatX, toPx: tipX, y: rowY, text: texts.length, beside: 'right' }));
    witness.push(line([seatX, y + radiusPx + 3], [seatX, rowY + 5]), line([tipX, y + half + 3], [tipX, rowY + 5]));
  }
  const notes: PlacedText[] =
    texts.thread === null ? [] : [{ x: tipX + 22, y: y - 8, anchor: 'start', lines: [texts.thread] }];
  return {
    widthPx,
    heightPx: rowY + 44,
    outlines,
    dimensions,
    witness,
    notes,
    scale: scaleBar({ pxPerMm, unit: texts.unit, x: edgePx, y: rowY + 32 }),
    broken: lengthMm === null,
  };
}
