import type { StackShape } from './stackShape.ts';
import { box, circle, closed, line, type Outline } from './outline.ts';

/** The tool is schematic but for its square and, where the plan gives it, the length of its lever. */
export interface ToolFrame {
  facePx: number;
  centreY: number;
  pxPerMm: number;
  /** The lever breaks off here at the latest. */
  topPx: number;
}

export function toolSizePx(driveMm: number, pxPerMm: number): { widthPx: number; halfPx: number; bossPx: number } {
  const between = (least: number, value: number, most: number): number => Math.max(least, Math.min(value, most));
  return {
    widthPx: between(34, driveMm * 1.9 * pxPerMm, 84),
    halfPx: between(19, driveMm * 1.3 * pxPerMm, 44),
    bossPx: 7,
  };
}

export interface ToolShape {
  outlines: Outline[];
  /** Where a balloon's leader ends. */
  gripX: number;
  gripY: number;
  /** The lever is longer than the drawing, or its length is not known. */
  broken: boolean;
}

export function toolShape(shape: StackShape, { facePx, centreY, pxPerMm, topPx }: ToolFrame): ToolShape {
  const { widthPx, halfPx, bossPx } = toolSizePx(shape.tool.driveMm, pxPerMm);
  const left = facePx - widthPx;
  const middle = facePx - widthPx / 2;
  const leverHalf = Math.max(11, widthPx * 0.34);
  const headTop = centreY - halfPx;
  const neck = headTop - Math.min(16, halfPx * 0.6);
  const leverPx = shape.tool.leverMm === null ? Infinity : shape.tool.leverMm * pxPerMm;
  const broken = centreY - leverPx < topPx;
  const end = broken ? topPx : Math.min(centreY - leverPx, neck - 4);
  const of = 'tool';
  const outlines: Outline[] = [
    {
      d: box(left - bossPx, centreY - halfPx * 0.5, left, centreY + halfPx * 0.5),
      ink: 'visible',
      fill: 'tool',
      of,
    },
  ];
  const body = [
    [left, headTop],
    [left, centreY + halfPx],
    [facePx, centreY + halfPx],
    [facePx, headTop],
    [middle + leverHalf, neck],
  ] as const;
  if (broken) {
    outlines.push({
      d: closed(
        ...body,
        [middle + leverHalf, end],
        [middle + leverHalf * 0.2, end + 8],
        [middle - leverHalf * 0.2, end - 3],
        [middle - leverHalf, end + 5],
        [middle - leverHalf, neck],
      ),
      ink: 'visible',
      fill: 'tool',
      of,
    });
  } else {
    outlines.push({
      d: closed(...body, [middle + leverHalf, end], [middle - leverHalf, end], [middle - leverHalf, neck]),
      ink: 'visible',
      fill: 'tool',
      of,
    });
    outlines.push({
      d: line([middle - leverHalf, end + 5], [middle + leverHalf, end + 5]),
      ink: 'narrow',
      fill: 'none',
      of,
    });
  }
  if (shape.tool.stepDeg !== null) {
    outlines.push({
      d: circle(middle, centreY, Math.min(halfPx, widthPx / 2) * 0.55),
      ink: 'narrow',
      fill: 'none',
      of: 'ratchet',
    });
  }
  return { outlines, gripX: middle, gripY: Math.min(Math.max(end + 24, topPx + 22), neck), broken };
}
