import type { ResolvedFastener } from '../../engine/plan/resolved.ts';
import { dimension, lineHeightPx } from './labels.ts';
import type { Dimension, PlacedText } from './labels.ts';
import { arc, circle, closed, line, onCircle } from './outline.ts';
import type { Outline, Point } from './outline.ts';
import { scaleBar } from './scaleBar.ts';
import type { ScaleBar } from './scaleBar.ts';
import { headShape, hostOutlines, platePx, secondPlatePx, shankOutlines } from './siteOutlines.ts';
import type { HeadShape, SiteFrame, SiteShape } from './siteOutlines.ts';

/** An access in mm, with the head in it where that is known. */
export interface AccessShape {
  depthMm: number;
  clearMm: number | null;
  /** Stretches of another width, from the mouth inwards. */
  profile: readonly { toMm: number; clearMm: number }[];
  protrusionMm: number | null;
  roomMm: number | null;
  swingDeg: number | null;
  fastener: Pick<ResolvedFastener, 'headForm' | 'acrossFlats'> | null;
}

export interface AccessTexts {
  depth: string;
  clear: string | null;
  /** One for each stretch: its depth and its width. */
  profile: readonly { to: string; clear: string }[];
  protrusion: string | null;
  unit: 'mm' | 'in';
}

export interface AccessLayout {
  widthPx: number;
  heightPx: number;
  pxPerMm: number;
  outlines: Outline[];
  dimensions: Dimension[];
  notes: PlacedText[];
  witness: string[];
  acrossHole: { x: number; top: number; bottom: number } | null;
  scale: ScaleBar;
}

const edgePx = 14;
const topPx = 18;
const leftPx = 90;
const hostWallPx = 34;
const fieldHalfPx = 74;
const pxPerMmMax = 9;

/** The hole in section, its mouth on the left as in the drawings of stacks, to the scale that fits the width. */
export function accessLayout(shape: AccessShape, texts: AccessTexts, widthPx: number): AccessLayout {
  const { depthMm, clearMm, profile, protrusionMm, fastener } = shape;
  const flatsMm = fastener !== null && 'mm' in fastener.acrossFlats ? fastener.acrossFlats.mm : 0;
  const recessed = fastener?.headForm === 'hex-socket' || fastener?.headForm === 'hexalobular';
  const headMm = recessed ? flatsMm * 1.9 : flatsMm;
  const holeMm = clearMm ?? Math.max(headMm * 1.4, depthMm * 0.2, 10);
  const tallestMm = Math.max(holeMm, headMm, ...profile.map((stretch) => stretch.clearMm));
  const endMm = depthMm + (recessed ? flatsMm * 0.65 : 0);
  const fixedPx = leftPx + platePx + secondPlatePx + edgePx;
  const pxPerMm = Math.min(
    endMm > 0 ? (widthPx - fixedPx) / endMm : pxPerMmMax,
    (2 * fieldHalfPx) / tallestMm,
    pxPerMmMax,
  );
  const boreHalfPx = (holeMm / 2) * pxPerMm;
  const hostHalfPx = Math.max(boreHalfPx, (tallestMm / 2) * pxPerMm) + hostWallPx;
  const centreY = topPx + hostHalfPx;
  const site: SiteFrame = {
    mouthPx: leftPx,
    depthPx: leftPx + depthMm * pxPerMm,
    centreY,
    pxPerMm,
    boreHalfPx,
    hostHalfPx,
  };
  const drawn: SiteShape = {
    fastener: fastener ?? { headForm: 'hex', acrossFlats: { mm: 0 } },
    socket: { outsideDiameterMm: holeMm * 0.8 },
    depthMm,
    clearMm,
    profile,
    protrusionMm,
  };
  const head: HeadShape =
    fastener === null
      ? { leftPx: site.depthPx, seatPx: site.depthPx, halfPx: 0, shankHalfPx: 0, outlines: [] }
      : headShape(drawn, site);
  const axis = line([leftPx - 40, centreY], [head.seatPx + platePx + secondPlatePx + 10, centreY]);
  const outlines: Outline[] = [
    ...hostOutlines(drawn, head, site),
    ...(fastener === null ? [] : shankOutlines(drawn, head, site)),
    ...head.outlines,
    { d: axis, ink: 'centre', fill: 'none', of: 'axis' },
  ];
  const bottomPx = centreY + hostHalfPx;
  const lastFromPx = leftPx + (profile.at(-1)?.toMm ?? 0) * pxPerMm;
  const acrossX = lastFromPx + Math.min(0.3 * (site.depthPx - lastFromPx), 46);
  const notes: PlacedText[] = [];
  if (texts.clear !== null && depthMm > 0)
    notes.push({ x: acrossX + 6, y: bottomPx + 15, anchor: 'start', lines: [`⌀ ${texts.clear} clear`] });
  for (const { to, clear } of texts.profile)
    notes.push({
      x: leftPx,
      y: bottomPx + 15 + notes.length * lineHeightPx,
      anchor: 'start',
      lines: [`⌀ ${clear} clear to ${to}`],
    });
  if (texts.protrusion !== null)
    notes.push({
      x: Math.max(site.depthPx, leftPx + 200),
      // In a row of its own: in a shallow hole both would stand upon each other.
      y: bottomPx + 15 + notes.length * lineHeightPx,
      anchor: 'end',
      lines: [`${texts.protrusion} of thread proud`],
    });
  const rowY = bottomPx + 16 + notes.length * lineHeightPx + 10;
  const depth = dimension({ fromPx: leftPx, toPx: site.depthPx, y: rowY, text: texts.depth, beside: 'left' });
  const acrossHole =
    clearMm === null || depthMm === 0 ? null : { x: acrossX, top: centreY - boreHalfPx, bottom: centreY + boreHalfPx };
  const witness =
    depthMm === 0
      ? []
      : [
          line([leftPx, bottomPx + 3], [leftPx, rowY + 5]),
          line([site.depthPx, bottomPx + 3], [site.depthPx, rowY + 5]),
          ...(acrossHole === null ? [] : [line([acrossX, acrossHole.bottom], [acrossX, bottomPx + 16])]),
        ];
  const scaleY = rowY + 30;
  return {
    widthPx,
    heightPx: scaleY + 14,
    pxPerMm,
    outlines,
    dimensions: depthMm === 0 ? [] : [depth],
    notes,
    witness,
    acrossHole,
    scale: scaleBar({ pxPerMm, unit: texts.unit, x: edgePx, y: scaleY }),
  };
}

export const endViewPx = 176;
const endFieldPx = 76;

/** The same from the mouth: the hole, the head, the room for a handle and its free swing, to a scale of its own. */
export function endView({ clearMm, profile, roomMm, swingDeg, fastener }: AccessShape): Outline[] {
  const centre: Point = [endViewPx / 2, endViewPx / 2];
  const flatsMm = fastener !== null && 'mm' in fastener.acrossFlats ? fastener.acrossFlats.mm : null;
  const widestMm = Math.max(
    ...[clearMm ?? 0, ...profile.map((stretch) => stretch.clearMm)].map((mm) => mm / 2),
    roomMm ?? 0,
    (flatsMm ?? 0) * 0.6,
  );
  const pxPerMm = widestMm > 0 ? endFieldPx / widestMm : 0;
  const outlines: Outline[] = [];
  const reachPx = roomMm === null ? endFieldPx : roomMm * pxPerMm;
  if (swingDeg !== null && swingDeg < 360) {
    const [x, y] = onCircle(centre, reachPx, -swingDeg / 2);
    const rim = arc(centre, reachPx, -swingDeg / 2, swingDeg / 2).replace(/^M[^A]*/, '');
    const sector = `M${centre[0]} ${centre[1]}L${x} ${y}${rim}Z`;
    outlines.push({ d: sector, ink: 'narrow', fill: 'steel', of: 'free swing' });
  }
  if (roomMm !== null)
    outlines.push({ d: circle(centre[0], centre[1], reachPx), ink: 'hidden', fill: 'none', of: 'room' });
  for (const stretch of profile)
    outlines.push({
      d: circle(centre[0], centre[1], (stretch.clearMm / 2) * pxPerMm),
      ink: 'visible',
      fill: 'none',
      of: 'stretch',
    });
  if (clearMm !== null)
    outlines.push({
      d: circle(centre[0], centre[1], (clearMm / 2) * pxPerMm),
      ink: 'visible',
      fill: roomMm === null && swingDeg === null ? 'field' : 'none',
      of: 'hole',
    });
  const headPx = flatsMm === null ? 0 : (flatsMm / Math.sqrt(3)) * pxPerMm;
  if (headPx > 0) {
    const corners = [30, 90, 150, 210, 270, 330].map((deg) => onCircle(centre, headPx, deg));
    outlines.push({ d: closed(...corners), ink: 'touched', fill: 'brass', of: 'head' });
  }
  outlines.push(
    { d: line([centre[0] - 16, centre[1]], [centre[0] + 16, centre[1]]), ink: 'centre', fill: 'none', of: 'axis' },
    { d: line([centre[0], centre[1] - 16], [centre[0], centre[1] + 16]), ink: 'centre', fill: 'none', of: 'axis' },
  );
  return outlines;
}
