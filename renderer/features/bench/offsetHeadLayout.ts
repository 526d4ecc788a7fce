import { showQuantity, showNumber, convertValue } from '../../engine/units/index.ts';
import { textWidthPx } from '../../components/StackDrawing/labels.ts';
import { scaleBar, type ScaleBar } from '../../components/StackDrawing/scaleBar.ts';

interface Point {
  x: number;
  y: number;
}

export interface OffsetHeadLayout {
  widthPx: number;
  heightPx: number;
  hand: Point;
  square: Point;
  fastener: Point;
  axisEnd: Point;
  outline: { grip: string; lever: string; wrenchHead: string; offsetHead: string; hexagon: string };
  dimensions: string;
  arrows: (Point & { turn: number })[];
  arc: string;
  texts: (Point & { text: string; anchor: 'start' | 'middle' | 'end' })[];
  scale: ScaleBar;
  said: string;
}

const widthPx = 642;
const marginPx = 90;
/** Right of the fastener stand the arc and the angle's words. */
const rightMarginPx = 136;
const headRadiusPx = 20;

/** Where everything lies, the whole of lever and head within the width. Angles open upwards. */
export function offsetHeadLayout(x: {
  leverMm: number;
  headMm: number;
  angleDeg: number;
  unit: 'mm' | 'in';
}): OffsetHeadLayout {
  const { leverMm, headMm, angleDeg, unit } = x;
  const turn = (angleDeg * Math.PI) / 180;
  const reachMm = leverMm + Math.max(0, headMm * Math.cos(turn));
  const behindMm = Math.max(0, -headMm * Math.cos(turn) - leverMm);
  const pxPerMm = (widthPx - marginPx - rightMarginPx) / (reachMm + behindMm);
  const above = Math.max(0, headMm * Math.sin(turn) * pxPerMm);
  const below = Math.max(0, -headMm * Math.sin(turn) * pxPerMm);
  const axisY = Math.round(Math.max(112, above + 60));
  const heightPx = axisY + Math.max(96, below + 90);
  const hand = { x: marginPx + behindMm * pxPerMm, y: axisY };
  const square = { x: hand.x + leverMm * pxPerMm, y: axisY };
  const along = (mm: number): Point => ({
    x: square.x + mm * pxPerMm * Math.cos(turn),
    y: square.y - mm * pxPerMm * Math.sin(turn),
  });
  const fastener = along(headMm);
  const headPx = headMm * pxPerMm;
  const dimensionY = axisY + 52 + below;
  const inUnit = (mm: number): string => `${showNumber(convertValue(mm, 'mm', unit))} ${unit}`;
  const length = (mm: number): string => showQuantity(inUnit(mm), 'both');
  const offsetPx = 42;
  const side = Math.sin(turn) >= 0 ? 1 : -1;
  // The dimension stands above the head, whichever way it points: below it is the lever's.
  const up = Math.cos(turn) < -1e-9 ? -1 : 1;
  const normal = { x: -up * Math.sin(turn) * offsetPx, y: -up * Math.cos(turn) * offsetPx };
  const [e1, e2] = [
    { x: square.x + normal.x, y: square.y + normal.y },
    { x: fastener.x + normal.x, y: fastener.y + normal.y },
  ];
  const arcPx = Math.abs(angleDeg) <= 60 ? Math.max(48, headPx + headRadiusPx + 10) : 52;
  const arcEnd = { x: square.x + arcPx * Math.cos(turn), y: square.y - arcPx * Math.sin(turn) };
  // In the middle of a small arc; of a large one where the dimension of the head is not.
  const besideHead = normal.x > 5 && Math.abs(angleDeg) > 60;
  const wordsAt = besideHead ? 0 : side * Math.min(Math.abs(turn) / 2, Math.PI / 4.5);
  const grip = Math.max(hand.x - 60, 6);
  return {
    ...{ widthPx, heightPx, hand, square, fastener },
    axisEnd: along(headMm + (headRadiusPx + 16) / pxPerMm),
    outline: {
      grip: `M${grip} ${axisY - 14}H${hand.x + 60}V${axisY + 14}H${grip}Z`,
      lever: `M${hand.x + 60} ${axisY - 8}H${square.x - 24}V${axisY + 8}H${hand.x + 60}Z`,
      wrenchHead: `M${square.x - 24} ${axisY - 8}L${square.x - 8} ${axisY - 20}H${square.x + 6}A20 20 0 0 1 ${square.x + 6} ${axisY + 20}H${square.x - 8}L${square.x - 24} ${axisY + 8}Z`,
      offsetHead: offsetOutline(headPx),
      hexagon: hexagonPath(headPx, 9),
    },
    dimensions: [
      `M${hand.x} ${axisY + 28}V${dimensionY + 5}M${square.x} ${axisY + 28}V${dimensionY + 5}`,
      `M${hand.x} ${dimensionY}H${square.x}`,
      `M${square.x + normal.x * 0.6} ${square.y + normal.y * 0.6}L${e1.x + normal.x * 0.12} ${e1.y + normal.y * 0.12}`,
      `M${fastener.x + normal.x * 0.6} ${fastener.y + normal.y * 0.6}L${e2.x + normal.x * 0.12} ${e2.y + normal.y * 0.12}`,
      `M${e1.x} ${e1.y}L${e2.x} ${e2.y}`,
    ].join(''),
    arrows: [
      { x: hand.x, y: dimensionY, turn: 0 },
      { x: square.x, y: dimensionY, turn: 180 },
      { ...e1, turn: -angleDeg },
      { ...e2, turn: 180 - angleDeg },
    ],
    arc:
      angleDeg === 0
        ? ''
        : `M${square.x + arcPx} ${square.y}A${arcPx} ${arcPx} 0 ${Math.abs(angleDeg) > 180 ? 1 : 0} ${side > 0 ? 0 : 1} ${arcEnd.x} ${arcEnd.y}`,
    texts: [
      { x: (hand.x + square.x) / 2, y: dimensionY - 5, text: `L  ${length(leverMm)}`, anchor: 'middle' },
      labelBeside(e1, e2, normal, `E  ${length(headMm)}`),
      {
        x: square.x + arcPx * Math.cos(wordsAt) + 8,
        y: square.y - arcPx * Math.sin(wordsAt) + 4 + (besideHead ? side * 26 : 0),
        text: `θ  ${showNumber(angleDeg)}°`,
        anchor: 'start',
      },
      { x: hand.x + 12, y: axisY - 62, text: 'hand force', anchor: 'start' },
    ],
    scale: scaleBar({ pxPerMm, unit, x: 12, y: heightPx - 12 }),
    said: `Torque wrench with offset head from above. Lever ${length(leverMm)}, head offset ${length(headMm)} at ${showNumber(angleDeg)}° to the lever.`,
  };
}

/** Beside the middle of a dimension, on the side away from what is measured, within the width. */
function labelBeside(
  e1: Point,
  e2: Point,
  normal: Point,
  text: string,
): Point & { text: string; anchor: 'start' | 'middle' | 'end' } {
  const anchor = normal.x < -5 ? 'end' : normal.x > 5 ? 'start' : 'middle';
  const share = 12 / Math.hypot(normal.x, normal.y);
  const x = (e1.x + e2.x) / 2 + normal.x * share;
  const most = widthPx - 4 - textWidthPx(text) * (anchor === 'start' ? 1 : anchor === 'middle' ? 0.5 : 0);
  return { x: Math.min(x, most), y: (e1.y + e2.y) / 2 + normal.y * share + 4, text, anchor };
}

/** Along the x axis: round about the square, a bar, round about the fastener. */
function offsetOutline(headPx: number): string {
  const r = headRadiusPx;
  if (headPx < r) return `M${-r} 0A${r} ${r} 0 1 1 ${r} 0A${r} ${r} 0 1 1 ${-r} 0Z`;
  return `M0 ${-13}H${headPx - 16}A${r} ${r} 0 1 1 ${headPx - 16} 13H0A13 13 0 0 1 0 -13Z`;
}

/** A hexagon about a point on the x axis. */
function hexagonPath(centre: number, radius: number): string {
  return `${Array.from({ length: 6 }, (_, index) => {
    const angle = (index * Math.PI) / 3;
    const [px, py] = [centre + radius * Math.cos(angle), radius * Math.sin(angle)];
    return `${index === 0 ? 'M' : 'L'}${Math.round(px * 10) / 10} ${Math.round(py * 10) / 10}`;
  }).join('')}Z`;
}
