import { dimension, extentOf, lineHeightPx, spread, textWidthPx, twoLines } from './labels.ts';
import type { Dimension, PlacedText } from './labels.ts';
import { box, line, type Outline } from './outline.ts';
import { extensionOutlines, socketOutlines, type PartFrame } from './partOutlines.ts';
import { headShape, hostOutlines, platePx, secondPlatePx, shankOutlines, type SiteFrame } from './siteOutlines.ts';
import { scaleBar, type ScaleBar } from './scaleBar.ts';
import type { StackShape } from './stackShape.ts';
import type { StackTexts } from './stackTexts.ts';
import { toolShape, toolSizePx } from './toolOutlines.ts';

export interface Balloon {
  number: number;
  x: number;
  y: number;
  /** Diameter or size of the part, beside the circle. */
  text: PlacedText;
  /** From the circle down past the texts, then to the part. */
  elbowY: number;
  toX: number;
  toY: number;
}

export interface StackLayout {
  widthPx: number;
  heightPx: number;
  pxPerMm: number;
  /** 2 where parts are large enough to bear it: ISO 128 wide, the narrow ones half of it. */
  widePx: number;
  outlines: Outline[];
  balloons: Balloon[];
  dimensions: Dimension[];
  /** Witness lines and leaders. */
  witness: string[];
  /** Text in the hole's own row, under the host. */
  notes: PlacedText[];
  /** Diameter line across the hole: its x and its two ends. */
  acrossHole: { x: number; top: number; bottom: number } | null;
  scale: ScaleBar;
  toolBroken: boolean;
}

const edgePx = 14;
const balloonRadiusPx = 11;
const balloonY = 24;
const textsEndY = 47;
const drawingTopY = 62;
const pxPerMmMax = 9;

/** How much of what is not the stack is drawn, and how high the stack may stand. */
export interface SceneSizes {
  hostWallPx: number;
  leverSeenPx: number;
  fieldHalfPx: number;
  /** A shorter scale stands in the row of the lowest dimension, where that leaves it room. */
  scaleInRow?: boolean;
  /** How wide texts are against the wide side of their letters: less where their font is sure to be there. */
  textShare: number;
  /** Texts beside their dimension stand in two lines. */
  twoLined?: boolean;
}

const onScreen: SceneSizes = { hostWallPx: 34, leverSeenPx: 56, fieldHalfPx: 78, textShare: 1 };
/** A page has lines to hold beside its drawing. */
export const onPaper: SceneSizes = {
  hostWallPx: 14,
  leverSeenPx: 22,
  fieldHalfPx: 37,
  scaleInRow: true,
  textShare: 0.86,
};
/** In a part of the page's width. */
export const onPartOfPaper: SceneSizes = { ...onPaper, twoLined: true };

/** Everything placed by numbers: the scale that fits the width, and margins wide enough for every text. */
export function stackLayout(
  shape: StackShape,
  texts: StackTexts,
  wantedWidthPx: number,
  sizes: SceneSizes = onScreen,
): StackLayout {
  const widthPx = Math.max(wantedWidthPx, balloonsWidth(texts, sizes.textShare) + 2 * edgePx);
  let margins = { left: 0, right: 0 };
  let layout = place(shape, texts, widthPx, { ...margins, ...sizes });
  for (let round = 0; round < 6; round += 1) {
    const over = overhang(layout, sizes.textShare);
    if (over.left <= 0 && over.right <= 0) return layout;
    margins = { left: margins.left + Math.max(0, over.left), right: margins.right + Math.max(0, over.right) };
    layout = place(shape, texts, widthPx, { ...margins, ...sizes });
  }
  return layout;
}

function place(
  shape: StackShape,
  texts: StackTexts,
  widthPx: number,
  margins: { left: number; right: number } & SceneSizes,
): StackLayout {
  const { hostWallPx, leverSeenPx, fieldHalfPx } = margins;
  const spanMm = shape.depthMm - shape.faceMm;
  const flatsMm = 'mm' in shape.fastener.acrossFlats ? shape.fastener.acrossFlats.mm : 0;
  const recessed = shape.fastener.headForm === 'hex-socket' || shape.fastener.headForm === 'hexalobular';
  const holeMm = shape.clearMm ?? Math.max(shape.widestMm, flatsMm) * 1.3;
  const tallestMm = Math.max(
    holeMm,
    ...shape.profile.map(({ clearMm }) => clearMm),
    shape.widestMm,
    recessed ? flatsMm * 1.9 : flatsMm,
  );
  const guess = toolSizePx(shape.tool.driveMm, pxPerMmMax);
  const fixedPx = 2 * edgePx + platePx + secondPlatePx + guess.bossPx + margins.left + margins.right;
  const headMm = recessed ? flatsMm * 0.65 : 0;
  // The tool's block scales too, within its bounds: the smallest scale its widest form allows is always safe.
  const wantedScale = (widthPx - fixedPx - guess.widthPx) / (spanMm + headMm);
  const pxPerMm = Math.min(wantedScale, (2 * fieldHalfPx) / tallestMm, pxPerMmMax);
  const tool = toolSizePx(shape.tool.driveMm, pxPerMm);
  const usedPx = fixedPx + tool.widthPx + (spanMm + headMm) * pxPerMm;
  const leftPx = edgePx + margins.left + tool.bossPx + tool.widthPx + Math.max(0, widthPx - usedPx) / 2;
  const atPx = (mm: number): number => leftPx + (mm - shape.faceMm) * pxPerMm;

  const boreHalfPx = (holeMm / 2) * pxPerMm;
  const hostHalfPx = Math.max(boreHalfPx, (tallestMm / 2) * pxPerMm) + hostWallPx;
  const centreY = Math.max(drawingTopY + hostHalfPx, drawingTopY + tool.halfPx + leverSeenPx);
  const site: SiteFrame = {
    mouthPx: atPx(0),
    depthPx: atPx(shape.depthMm),
    centreY,
    pxPerMm,
    boreHalfPx,
    hostHalfPx,
  };
  const facePx = atPx(shape.faceMm);
  const head = headShape(shape, site);
  const drawnTool = toolShape(shape, { facePx, centreY, pxPerMm, topPx: drawingTopY });
  const recessedHead = recessed ? [...head.outlines] : [];
  const openHead = recessed ? [] : head.outlines;
  const partFrames = shape.parts.map((p): PartFrame => ({
    leftPx: atPx(p.startMm),
    rightPx: atPx(p.endMm),
    centreY,
    pxPerMm,
  }));
  let squareMm = shape.tool.driveMm;
  const parts: Outline[] = [];
  shape.parts.forEach(({ part }, index) => {
    const frame = partFrames[index];
    if (frame === undefined) return;
    if (part.kind === 'extension') parts.push(...extensionOutlines(part, frame));
    else parts.push(...socketOutlines(part, squareMm, frame));
    if (part.kind === 'extension') squareMm = part.driveOutMm;
  });
  const axis = line(
    [facePx - tool.widthPx - tool.bossPx - 12, centreY],
    [head.seatPx + platePx + secondPlatePx + 10, centreY],
  );
  const outlines: Outline[] = [
    ...hostOutlines(shape, head, site),
    ...recessedHead,
    ...drawnTool.outlines,
    ...parts,
    ...shankOutlines(shape, head, site),
    ...openHead,
    ...shortfall(shape, atPx, centreY),
    ...jams(shape, atPx, site),
    ...studJam(shape, atPx, centreY, head.shankHalfPx),
    { d: axis, ink: 'centre', fill: 'none', of: 'axis' },
  ];

  const bottomPx = centreY + Math.max(hostHalfPx, tool.halfPx);
  const lastFromPx = atPx(shape.profile.at(-1)?.toMm ?? 0);
  const across = lastFromPx + Math.min(0.2 * (site.depthPx - lastFromPx), 46);
  const notes = holeNotes(texts, across, bottomPx);
  const noteLines = notes.reduce((most, note) => Math.max(most, note.lines.length), 0);
  const { twoLined } = margins;
  const rowPx = twoLined === true ? 33 : 25;
  const rowA = bottomPx + 1 + noteLines * lineHeightPx + rowPx;
  const rowB = shape.depthMm > 0 ? rowA + rowPx : rowA;
  const dimensions = lengthDimensions(shape, texts, { atPx, rowA, rowB, twoLined });
  const inRow = margins.scaleInRow === true;
  const scale = scaleBar({ pxPerMm, unit: texts.unit, x: edgePx + 4, y: rowB + 4, mostPx: inRow ? 70 : 120 });
  const scaleEndPx = scale.x + scale.lengthPx + textWidthPx(`0 to ${scale.text}`) * margins.textShare + 20;
  const firstPx = Math.min(
    facePx,
    ...dimensions.filter(({ y }) => y === rowB).map(({ text }) => extentOf(text, margins.textShare).left),
  );
  const scaleY = inRow && scaleEndPx < firstPx ? scale.y : rowB + 32;
  const acrossHole =
    shape.clearMm === null || shape.depthMm === 0
      ? null
      : { x: across, top: centreY - boreHalfPx, bottom: centreY + boreHalfPx };
  const witness = [
    line([facePx, centreY + tool.halfPx + 3], [facePx, (shape.spareMm < 0 ? rowA : rowB) + 5]),
    line([site.depthPx, centreY + (shape.depthMm > 0 ? hostHalfPx : head.halfPx) + 3], [site.depthPx, rowB + 5]),
  ];
  if (shape.depthMm > 0) {
    witness.push(line([site.mouthPx, centreY + hostHalfPx + 3], [site.mouthPx, (shape.spareMm < 0 ? rowB : rowA) + 5]));
  }
  if (shape.spareMm < 0) {
    const end = atPx(shape.lengthMm);
    witness.push(line([end, centreY + (shape.socket.outsideDiameterMm / 2) * pxPerMm + 3], [end, rowB + 5]));
  }
  const note = notes[0];
  if (acrossHole !== null && note !== undefined) {
    witness.push(line([acrossHole.x, acrossHole.bottom], [acrossHole.x, note.y + 2]));
  }
  const targets = [
    { x: drawnTool.gripX, y: drawnTool.gripY },
    ...partFrames.map((f, index) => ({
      x: (f.leftPx + f.rightPx) / 2,
      y: centreY - (shape.parts[index]?.part.outsideDiameterMm ?? 0) * 0.2 * pxPerMm,
    })),
    { x: (head.leftPx + head.seatPx) / 2, y: centreY - head.halfPx * 0.7 },
  ];
  const smallest = Math.min(...shape.parts.map((p) => p.part.outsideDiameterMm)) * pxPerMm;
  return {
    widthPx,
    heightPx: scaleY + (twoLined === true ? 18 : 14),
    pxPerMm,
    widePx: smallest < 18 ? 1.2 : 2,
    outlines,
    balloons: balloons(targets, texts, widthPx, margins.textShare),
    dimensions,
    witness,
    notes,
    acrossHole,
    scale: { ...scale, y: scaleY },
    toolBroken: drawnTool.broken,
  };
}

/** The missing length between the socket's end and where it should stand, filled. */
function shortfall(shape: StackShape, atPx: (mm: number) => number, centreY: number): Outline[] {
  if (shape.spareMm >= 0) return [];
  const half = (shape.socket.outsideDiameterMm / 2) * (atPx(1) - atPx(0));
  return [
    {
      d: box(atPx(shape.lengthMm), centreY - half, atPx(shape.depthMm), centreY + half),
      ink: 'short',
      fill: 'short',
      of: 'shortfall',
    },
  ];
}

/** A stud that runs into the socket's floor, filled over the length the socket has no room for. */
function studJam(shape: StackShape, atPx: (mm: number) => number, centreY: number, halfPx: number): Outline[] {
  const { protrusionMm, depthMm } = shape;
  const { innerDepthMm } = shape.socket;
  if (protrusionMm === null || innerDepthMm === null || protrusionMm <= innerDepthMm) return [];
  const d = box(atPx(depthMm - protrusionMm), centreY - halfPx, atPx(depthMm - innerDepthMm), centreY + halfPx);
  return [{ d, ink: 'jam', fill: 'jam', of: 'stud jam' }];
}

/** Where a part is wider than the hole it has to pass, filled. */
function jams(shape: StackShape, atPx: (mm: number) => number, site: SiteFrame): Outline[] {
  return shape.parts.flatMap(({ part, startMm, endMm, tooWideMm }): Outline[] => {
    if (tooWideMm === 0) return [];
    const outer = (part.outsideDiameterMm / 2) * site.pxPerMm;
    return stretchesOf(shape, site)
      .filter(({ fromMm, halfPx }) => fromMm < endMm && halfPx < outer)
      .flatMap(({ fromMm, toMm, halfPx }) => {
        // What it only passes on its way in is filled over the whole stretch.
        const left = Math.max(atPx(toMm <= startMm ? fromMm : Math.max(fromMm, startMm)), site.mouthPx);
        const right = Math.min(atPx(toMm <= startMm ? toMm : Math.min(toMm, endMm)), site.depthPx);
        return [-1, 1].map((side): Outline => ({
          d: box(left, site.centreY + side * halfPx, right, site.centreY + side * Math.max(outer, halfPx + 2)),
          ink: 'jam',
          fill: 'jam',
          of: 'jam',
        }));
      });
  });
}

/** The hole stretch by stretch, as drawn. */
function stretchesOf({ profile, depthMm }: StackShape, { pxPerMm, boreHalfPx }: SiteFrame) {
  const known = profile.map(({ toMm, clearMm }, index) => ({
    fromMm: profile[index - 1]?.toMm ?? 0,
    toMm,
    halfPx: (clearMm / 2) * pxPerMm,
  }));
  return [...known, { fromMm: profile.at(-1)?.toMm ?? 0, toMm: depthMm, halfPx: boreHalfPx }];
}

/** Beside its leader, so that the text belongs to the line across the hole. */
function holeNotes(texts: StackTexts, leaderX: number, bottomPx: number): PlacedText[] {
  if (texts.hole.length === 0) return [];
  return [{ x: leaderX + 8, y: bottomPx + 20, anchor: 'start', lines: texts.hole }];
}

function lengthDimensions(
  shape: StackShape,
  texts: StackTexts,
  rows: { atPx: (mm: number) => number; rowA: number; rowB: number; twoLined: boolean | undefined },
): Dimension[] {
  const { atPx, rowA, rowB, twoLined } = rows;
  const face = atPx(shape.faceMm);
  const mouth = atPx(0);
  const depth = atPx(shape.depthMm);
  const whole = dimension({ fromPx: face, toPx: depth, y: rowB, text: texts.stack, beside: 'right', twoLined });
  if (shape.depthMm === 0) return [whole];
  const needed = dimension({ fromPx: mouth, toPx: depth, y: rowA, text: texts.needed, beside: 'right', twoLined });
  if (shape.spareMm === 0) return [needed, whole];
  if (shape.spareMm > 0) {
    return [
      dimension({ fromPx: face, toPx: mouth, y: rowA, text: texts.spare, beside: 'left', twoLined }),
      needed,
      whole,
    ];
  }
  const end = atPx(shape.lengthMm);
  return [
    needed,
    dimension({ fromPx: mouth, toPx: end, y: rowB, text: texts.stack, beside: 'left', twoLined }),
    dimension({ fromPx: end, toPx: depth, y: rowB, text: texts.spare, beside: 'right', twoLined, filled: true }),
  ];
}

const besideBalloonPx = 5;

function balloonWidths(texts: StackTexts, share: number): number[] {
  return texts.balloons.map((text) => {
    const beside = text === '' ? 0 : Math.max(...twoLines(text).map((l) => textWidthPx(l))) * share + besideBalloonPx;
    return 2 * balloonRadiusPx + beside;
  });
}

const balloonGapPx = 10;

function balloonsWidth(texts: StackTexts, share: number): number {
  return balloonWidths(texts, share).reduce((sum, width) => sum + width + balloonGapPx, 0);
}

function balloons(targets: { x: number; y: number }[], texts: StackTexts, widthPx: number, share: number): Balloon[] {
  const widths = balloonWidths(texts, share);
  const wanted = targets.map((target, index) => target.x - balloonRadiusPx + (widths[index] ?? 0) / 2);
  const centres = spread(wanted, widths, { left: edgePx, right: widthPx - edgePx }, balloonGapPx);
  return targets.map((target, index) => {
    const x = (centres[index] ?? 0) - (widths[index] ?? 0) / 2 + balloonRadiusPx;
    const lines = twoLines(texts.balloons[index] ?? '');
    const text: PlacedText = {
      x: x + balloonRadiusPx + besideBalloonPx,
      y: lines.length === 1 ? balloonY + 4 : balloonY - 3,
      anchor: 'start',
      lines,
    };
    return { number: index + 1, x, y: balloonY, text, elbowY: textsEndY, toX: target.x, toY: target.y };
  });
}

/** How far texts stand out of the field, so that the next round leaves room for them. */
function overhang(layout: StackLayout, share: number): { left: number; right: number } {
  const extents = [...layout.dimensions.map((d) => d.text), ...layout.notes].map((text) => extentOf(text, share));
  return {
    left: Math.max(...extents.map((e) => edgePx - e.left), 0),
    right: Math.max(...extents.map((e) => e.right - (layout.widthPx - edgePx)), 0),
  };
}
