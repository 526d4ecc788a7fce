import { dimension } from '../../../components/StackDrawing/labels.ts';
import type { PlacedText } from '../../../components/StackDrawing/labels.ts';
import { box, circle, closed, line } from '../../../components/StackDrawing/outline.ts';
import type { Outline, Point } from '../../../components/StackDrawing/outline.ts';
import { extensionOutlines, socketOutlines } from '../../../components/StackDrawing/partOutlines.ts';
import { scaleBar } from '../../../components/StackDrawing/scaleBar.ts';
import { openingEnd, squareEnd } from './endViews.ts';
import { fastenerLayout } from './fastenerLayout.ts';
import type { ItemShape } from './itemShape.ts';
import type { ItemLayout } from './laidItem.ts';
import type { ItemTexts } from './itemTexts.ts';
import { offsetLayout } from './offsetLayout.ts';
import { packLayout } from './packLayout.ts';

const edgePx = 24;
const gapPx = 56;
const endLeastPx = 54;
const fieldHalfPx = 62;
const topPx = 40;
const pxPerMmMax = 9;
/** The square of an extension stands out beyond its length, so far at most. */
const squareMostPx = 30;

export function itemLayout(shape: ItemShape, texts: ItemTexts, widthPx: number): ItemLayout {
  if (shape.kind === 'fastener') return fastenerLayout(shape, texts, widthPx);
  if (shape.kind === 'offset-head') return offsetLayout(shape, texts, widthPx);
  if ('longMm' in shape) return packLayout(shape, texts, widthPx);
  return shape.kind === 'tool' ? toolLayout(shape, texts, widthPx) : partLayout(shape, texts, widthPx);
}

/** The view from the side, with the view from either end beside it: third angle. */
function partLayout(shape: Extract<ItemShape, { part: unknown }>, texts: ItemTexts, widthPx: number): ItemLayout {
  const { part } = shape;
  const fixedPx = 2 * edgePx + 2 * gapPx;
  const squarePx = shape.kind === 'extension' ? squareMostPx : 0;
  const roomPx = widthPx - fixedPx - squarePx;
  const withEnds = roomPx / (part.lengthMm + 2 * part.outsideDiameterMm);
  // The words of a thin piece's end views are wider than the views.
  const thin = (part.outsideDiameterMm / 2) * withEnds < endLeastPx;
  const byLength = thin ? (roomPx - 4 * endLeastPx) / part.lengthMm : withEnds;
  const pxPerMm = Math.min(byLength, (2 * fieldHalfPx) / part.outsideDiameterMm, pxPerMmMax);
  const radiusPx = (part.outsideDiameterMm / 2) * pxPerMm;
  const slotPx = Math.max(radiusPx, endLeastPx);
  const lengthPx = part.lengthMm * pxPerMm;
  const spare = Math.max(0, widthPx - 2 * edgePx - 4 * slotPx - 2 * (gapPx - 20) - squarePx - lengthPx) / 2;
  const leftPx = edgePx + spare + 2 * slotPx + gapPx - 20;
  const rightPx = leftPx + lengthPx;
  const centreY = topPx + Math.max(fieldHalfPx, radiusPx);
  const frame = { leftPx, rightPx, centreY, pxPerMm };
  const left: Point = [leftPx - (gapPx - 20) - slotPx, centreY];
  const right: Point = [rightPx + squarePx + (gapPx - 20) + slotPx, centreY];
  const end = (centre: Point) => ({ centre, radiusPx, pxPerMm });
  const outlines: Outline[] =
    shape.kind === 'socket'
      ? [
          ...sectionAlone(shape.part, frame),
          ...squareEnd(end(left), shape.part.driveMm, false),
          ...openingEnd(end(right), shape.part),
        ]
      : [
          ...extensionOutlines(shape.part, frame),
          ...squareOut(shape.part.driveOutMm, rightPx, centreY, pxPerMm),
          ...squareEnd(end(left), shape.part.driveInMm, false),
          ...squareEnd(end(right), shape.part.driveOutMm, true),
        ];
  const axis = line([leftPx - 16, centreY], [rightPx + 16, centreY]);
  outlines.push({ d: axis, ink: 'centre', fill: 'none', of: 'axis' });
  const bottom = centreY + radiusPx;
  // Under the words below the end views, which a short piece's own dimension would run into.
  const rowY = bottom + 58;
  const whole = dimension({ fromPx: leftPx, toPx: rightPx, y: rowY, text: texts.length ?? '', beside: 'right' });
  const witness = [line([leftPx, bottom + 3], [leftPx, rowY + 5]), line([rightPx, bottom + 3], [rightPx, rowY + 5])];
  const dimensions = [whole];
  const depthMm = shape.kind === 'socket' ? shape.part.innerDepthMm : null;
  if (depthMm !== null && texts.innerDepth !== null && depthMm > 0 && depthMm < part.lengthMm) {
    const fromPx = rightPx - depthMm * pxPerMm;
    const y = centreY - radiusPx - 14;
    dimensions.push(dimension({ fromPx, toPx: rightPx, y, text: `${texts.innerDepth} deep`, beside: 'left' }));
    for (const x of [fromPx, rightPx]) witness.push(line([x, centreY - radiusPx - 3], [x, y - 5]));
  }
  const below = ([x]: Point, said: string | null): PlacedText[] =>
    said === null ? [] : [{ x, y: bottom + 26, anchor: 'middle', lines: twoLines(said) }];
  const above: PlacedText[] =
    texts.out === null ? [] : [{ x: right[0], y: centreY - radiusPx - 14, anchor: 'middle', lines: [texts.out] }];
  return {
    widthPx,
    heightPx: rowY + 44,
    outlines,
    dimensions,
    witness,
    notes: [...below(left, texts.driveIn), ...above, ...below(right, texts.diameter)],
    scale: scaleBar({ pxPerMm, unit: texts.unit, x: edgePx, y: rowY + 32 }),
    broken: false,
  };
}

/** "⌀0.80 in (20.3 mm)", the authority above. */
function twoLines(text: string): string[] {
  const bracket = text.indexOf(' (');
  return bracket < 0 ? [text] : [text.slice(0, bracket), text.slice(bracket + 1)];
}

/** A socket by itself: no square stands in it. */
function sectionAlone(
  part: Parameters<typeof socketOutlines>[0],
  frame: Parameters<typeof socketOutlines>[2],
): Outline[] {
  const drawn = socketOutlines(part, part.driveMm, frame);
  const isBit = part.openingForm === 'hexKey' || part.openingForm === 'hexalobular';
  return isBit ? drawn : drawn.filter(({ of }) => of !== 'square');
}

/** The square an extension ends in stands out beyond its length. */
function squareOut(sideMm: number, rightPx: number, centreY: number, pxPerMm: number): Outline[] {
  const half = (sideMm / 2) * pxPerMm;
  const long = Math.min(sideMm * pxPerMm, squareMostPx);
  const d = box(rightPx, centreY - half, rightPx + long, centreY + half);
  return [
    { d, ink: 'visible', fill: 'tool', of: 'square' },
    { d: line([rightPx, centreY - half], [rightPx + long, centreY + half]), ink: 'narrow', fill: 'none', of: 'square' },
    { d: line([rightPx, centreY + half], [rightPx + long, centreY - half]), ink: 'narrow', fill: 'none', of: 'square' },
  ];
}

/** A tool along its lever, seen onto the square: the lever's length and the square to scale, the rest schematic. */
function toolLayout(shape: Extract<ItemShape, { kind: 'tool' }>, texts: ItemTexts, widthPx: number): ItemLayout {
  const { driveMm, leverMm } = shape;
  const headMm = driveMm * 1.35;
  const room = widthPx - 2 * edgePx - 40;
  const spanMm = (leverMm ?? driveMm * 14) + headMm * 1.6;
  const pxPerMm = Math.min(room / spanMm, fieldHalfPx / headMm, pxPerMmMax);
  const headPx = headMm * pxPerMm;
  const usedPx = spanMm * pxPerMm;
  const x = edgePx + (widthPx - 2 * edgePx - usedPx) / 2 + headPx;
  const centreY = topPx + fieldHalfPx * 0.7;
  const handX = x + (leverMm ?? driveMm * 14) * pxPerMm;
  const grip = Math.max(headPx * 0.42, 5);
  const endX = handX + headPx * 0.6;
  const outlines: Outline[] = [
    leverMm === null
      ? { d: brokenLever(x, endX, centreY, grip), ink: 'visible', fill: 'tool', of: 'lever' }
      : { d: box(x, centreY - grip, endX, centreY + grip), ink: 'visible', fill: 'tool', of: 'lever' },
    { d: circle(x, centreY, headPx), ink: 'visible', fill: 'tool', of: 'head' },
    ...squareEnd({ centre: [x, centreY], radiusPx: headPx * 0.72, pxPerMm }, driveMm, true),
  ];
  if (leverMm !== null) {
    const half = grip + 8;
    outlines.push({
      d: line([handX, centreY - half], [handX, centreY + half]),
      ink: 'centre',
      fill: 'none',
      of: 'hand',
    });
  }
  const rowY = centreY + Math.max(headPx, grip) + 26;
  const dimensions =
    leverMm === null || texts.length === null
      ? []
      : [dimension({ fromPx: x, toPx: handX, y: rowY, text: texts.length, beside: 'right' })];
  const witness =
    leverMm === null
      ? []
      : [line([x, centreY + headPx + 12], [x, rowY + 5]), line([handX, centreY + grip + 10], [handX, rowY + 5])];
  const notes: PlacedText[] =
    texts.driveIn === null ? [] : [{ x, y: centreY - headPx - 14, anchor: 'middle', lines: [texts.driveIn] }];
  return {
    widthPx,
    heightPx: rowY + 44,
    outlines,
    dimensions,
    witness,
    notes,
    scale: scaleBar({ pxPerMm, unit: texts.unit, x: edgePx, y: rowY + 32 }),
    broken: leverMm === null,
  };
}

/** A lever of unknown length: broken off, as in the drawing of a stack. */
function brokenLever(fromX: number, toX: number, y: number, half: number): string {
  return closed(
    [fromX, y - half],
    [toX, y - half],
    [toX + 5, y - half * 0.3],
    [toX - 4, y + half * 0.3],
    [toX, y + half],
    [fromX, y + half],
  );
}
