import type { ResolvedFastener, ResolvedSocket } from '../../engine/plan/resolved.ts';
import { box, closed, line, turned, type Outline, type Point } from './outline.ts';

/** What is drawn of a site: of a stack's shape so much, and all of it where no stack is there. */
export interface SiteShape {
  fastener: Pick<ResolvedFastener, 'headForm' | 'acrossFlats'>;
  /** Stands in for the size of a head that is a name. */
  socket: Pick<ResolvedSocket, 'outsideDiameterMm'>;
  depthMm: number;
  clearMm: number | null;
  /** Stretches of another width, from the mouth inwards. */
  profile: readonly { toMm: number; clearMm: number }[];
  protrusionMm: number | null;
}

/** The head, its joint and the host around the hole. */
export interface SiteFrame {
  mouthPx: number;
  /** Where the socket's end stands when it is home. */
  depthPx: number;
  centreY: number;
  pxPerMm: number;
  /** Half the hole as drawn. */
  boreHalfPx: number;
  hostHalfPx: number;
}

export const platePx = 58;
export const secondPlatePx = 40;

export interface HeadShape {
  /** Head from its free end to the seat. */
  leftPx: number;
  seatPx: number;
  halfPx: number;
  shankHalfPx: number;
  outlines: Outline[];
}

/** Width across flats is to scale; height of the head and the shank follow from it by rule of thumb, schematic. */
export function headShape(shape: SiteShape, frame: SiteFrame): HeadShape {
  const { depthPx, centreY, pxPerMm, boreHalfPx } = frame;
  const { fastener, socket } = shape;
  const inRecess = fastener.headForm === 'hex-socket' || fastener.headForm === 'hexalobular';
  const flatsMm = 'mm' in fastener.acrossFlats ? fastener.acrossFlats.mm : socket.outsideDiameterMm * 0.42;
  if (!inRecess) {
    const halfPx = (flatsMm / 2) * pxPerMm;
    const leftPx = depthPx - flatsMm * 0.42 * pxPerMm;
    const shankHalfPx = flatsMm * 0.31 * pxPerMm;
    const of = 'head';
    const outlines: Outline[] = [
      {
        d: turned(centreY, [
          [leftPx, halfPx],
          [depthPx, halfPx],
        ]),
        ink: 'touched',
        fill: 'brass',
        of,
      },
      {
        d: line([leftPx, centreY - halfPx * 0.45], [depthPx, centreY - halfPx * 0.45]),
        ink: 'narrow',
        fill: 'none',
        of,
      },
      {
        d: line([leftPx, centreY + halfPx * 0.45], [depthPx, centreY + halfPx * 0.45]),
        ink: 'narrow',
        fill: 'none',
        of,
      },
    ];
    return { leftPx, seatPx: depthPx, halfPx, shankHalfPx, outlines };
  }
  const nominalPx = (flatsMm / 0.8) * pxPerMm;
  const recessPx = nominalPx * 0.5;
  const leftPx = depthPx - recessPx;
  const seatPx = depthPx + nominalPx * 0.5;
  const halfPx = Math.min(nominalPx * 0.75, boreHalfPx * 0.94);
  const recessHalfPx = (flatsMm / 2) * pxPerMm;
  const of = 'head';
  const half = (side: 1 | -1): Point[] => [
    [leftPx, centreY - side * halfPx],
    [seatPx, centreY - side * halfPx],
    [seatPx, centreY],
    [depthPx + recessHalfPx * 0.3, centreY],
    [depthPx, centreY - side * recessHalfPx],
    [leftPx, centreY - side * recessHalfPx],
  ];
  return {
    leftPx,
    seatPx,
    halfPx,
    shankHalfPx: nominalPx / 2,
    outlines: [
      { d: closed(...half(1)), ink: 'touched', fill: 'brass', of },
      { d: closed(...half(-1)), ink: 'touched', fill: 'brass', of },
    ],
  };
}

/** Shank through the joint, and the end of a stud that stands proud of its nut. */
export function shankOutlines(shape: SiteShape, head: HeadShape, frame: SiteFrame): Outline[] {
  const { centreY, pxPerMm, depthPx } = frame;
  const endPx = head.seatPx + platePx + secondPlatePx * 0.72;
  const outlines: Outline[] = [
    {
      d: turned(centreY, [
        [head.seatPx, head.shankHalfPx],
        [endPx, head.shankHalfPx],
      ]),
      ink: 'touched',
      fill: 'brass',
      of: 'shank',
    },
  ];
  for (const side of [-1, 1]) {
    const y = centreY + side * head.shankHalfPx * 0.84;
    outlines.push({ d: line([head.seatPx + 2, y], [endPx - 2, y]), ink: 'narrow', fill: 'none', of: 'thread' });
  }
  if (shape.protrusionMm === null || shape.protrusionMm === 0) return outlines;
  const proudPx = depthPx - shape.protrusionMm * pxPerMm;
  outlines.push({
    d: turned(centreY, [
      [proudPx, head.shankHalfPx],
      [head.leftPx, head.shankHalfPx],
    ]),
    ink: 'touched',
    fill: 'brass',
    of: 'stud',
  });
  return outlines;
}

/** The hole's wall from the mouth inwards, as far as its last width begins: x and half of it. */
function boreWall({ profile }: SiteShape, { mouthPx, pxPerMm, boreHalfPx }: SiteFrame): [number, number][] {
  const wall: [number, number][] = [];
  let fromPx = mouthPx;
  for (const { toMm, clearMm } of profile) {
    const toPx = mouthPx + toMm * pxPerMm;
    wall.push([fromPx, (clearMm / 2) * pxPerMm], [toPx, (clearMm / 2) * pxPerMm]);
    fromPx = toPx;
  }
  return [...wall, [fromPx, boreHalfPx]];
}

/** Host in section round the hole, closed behind the head by the plates of the joint. */
export function hostOutlines(shape: SiteShape, head: HeadShape, frame: SiteFrame): Outline[] {
  const { mouthPx, centreY, boreHalfPx, hostHalfPx } = frame;
  const plateEnd = head.seatPx + platePx;
  const secondEnd = plateEnd + secondPlatePx;
  const hole = head.shankHalfPx + 2;
  const outlines: Outline[] = [];
  const wall = boreWall(shape, frame);
  for (const side of [-1, 1]) {
    const y = (r: number): number => centreY + side * r;
    const around: Point[] =
      shape.depthMm > 0
        ? [
            [mouthPx, y(hostHalfPx)],
            ...wall.map(([x, r]): Point => [x, y(r)]),
            [head.seatPx, y(boreHalfPx)],
            [head.seatPx, y(hole)],
          ]
        : [
            [head.seatPx, y(hostHalfPx)],
            [head.seatPx, y(hole)],
          ];
    const hostD = closed(...around, [plateEnd, y(hole)], [plateEnd, y(hostHalfPx)]);
    outlines.push({ d: hostD, ink: 'none', fill: 'cutHost', of: 'host' });
    outlines.push({
      d: line(...around, [plateEnd, y(hole)]),
      ink: shape.clearMm === null && shape.depthMm > 0 ? 'hidden' : 'visible',
      fill: 'none',
      of: 'bore',
    });
    outlines.push({ d: box(plateEnd, y(hole), secondEnd, y(hostHalfPx)), ink: 'none', fill: 'cutPlate', of: 'plate' });
    const start = shape.depthMm > 0 ? mouthPx : head.seatPx;
    outlines.push({
      d: broken([start, y(hostHalfPx)], [secondEnd, y(hostHalfPx)]),
      ink: 'narrow',
      fill: 'none',
      of: 'break',
    });
  }
  outlines.push({
    d: line([plateEnd, centreY - hostHalfPx], [plateEnd, centreY - hole]),
    ink: 'visible',
    fill: 'none',
    of: 'plate',
  });
  outlines.push({
    d: line([plateEnd, centreY + hole], [plateEnd, centreY + hostHalfPx]),
    ink: 'visible',
    fill: 'none',
    of: 'plate',
  });
  outlines.push({
    d: line([secondEnd, centreY - hostHalfPx], [secondEnd, centreY - hole]),
    ink: 'narrow',
    fill: 'none',
    of: 'plate',
  });
  outlines.push({
    d: line([secondEnd, centreY + hole], [secondEnd, centreY + hostHalfPx]),
    ink: 'narrow',
    fill: 'none',
    of: 'plate',
  });
  return outlines;
}

/** A straight run with one zigzag in its middle: the part goes on. */
function broken(from: Point, to: Point): string {
  const [x1, y1] = from;
  const [x2, y2] = to;
  const long = Math.hypot(x2 - x1, y2 - y1);
  const [ux, uy] = long === 0 ? [1, 0] : [(x2 - x1) / long, (y2 - y1) / long];
  const at = (along: number, across: number): Point => [x1 + ux * along - uy * across, y1 + uy * along + ux * across];
  const middle = long / 2;
  const step = Math.min(5, long / 8);
  return line(
    from,
    at(middle - step, 0),
    at(middle - step * 0.4, -5),
    at(middle + step * 0.4, 5),
    at(middle + step, 0),
    to,
  );
}
