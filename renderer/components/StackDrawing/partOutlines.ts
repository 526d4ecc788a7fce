import type { ResolvedExtension, ResolvedSocket } from '../../engine/plan/resolved.ts';
import { box, circle, line, turned, type Outline } from './outline.ts';

/** Length and outside diameter are to scale, and so are squares and openings; shoulders, shafts and walls are schematic. */
export interface PartFrame {
  leftPx: number;
  rightPx: number;
  centreY: number;
  pxPerMm: number;
}

const shaftOfDiameter = 0.62;
const squareLengthOfSide = 1;

export function extensionOutlines(part: ResolvedExtension, frame: PartFrame): Outline[] {
  const of = part.id;
  const body =
    part.form === 'universal'
      ? universal(part, frame)
      : part.form === 'adapter'
        ? adapter(part, frame)
        : rigid(part, frame);
  return [...body, { ...hiddenSquare(part.driveInMm, frame), of }];
}

function rigid(part: ResolvedExtension, { leftPx, rightPx, centreY, pxPerMm }: PartFrame): Outline[] {
  const radius = (part.outsideDiameterMm / 2) * pxPerMm;
  const long = rightPx - leftPx;
  const boss = Math.min(long * 0.32, radius * 2.2);
  const collar = Math.min(long * 0.18, radius * 1.2);
  const slope = Math.min(radius * 0.5, (long - boss - collar) * 0.2);
  const shaft = radius * shaftOfDiameter;
  const profile = turned(centreY, [
    [leftPx, radius],
    [leftPx + boss, radius],
    [leftPx + boss + slope, shaft],
    [rightPx - collar - slope, shaft],
    [rightPx - collar, radius],
    [rightPx, radius],
  ]);
  return [{ d: profile, ink: 'visible', fill: 'steel', of: part.id }];
}

function adapter(part: ResolvedExtension, { leftPx, rightPx, centreY, pxPerMm }: PartFrame): Outline[] {
  const radius = (part.outsideDiameterMm / 2) * pxPerMm;
  const small = Math.min(part.driveInMm, part.driveOutMm) / Math.max(part.driveInMm, part.driveOutMm);
  const middle = (leftPx + rightPx) / 2;
  const narrowsOut = part.driveOutMm <= part.driveInMm;
  const [left, right] = narrowsOut
    ? [radius, radius * Math.max(small, 0.55)]
    : [radius * Math.max(small, 0.55), radius];
  const slope = Math.min((rightPx - leftPx) * 0.12, radius);
  const profile = turned(centreY, [
    [leftPx, left],
    [middle - slope, left],
    [middle + slope, right],
    [rightPx, right],
  ]);
  return [{ d: profile, ink: 'visible', fill: 'steel', of: part.id }];
}

/** Two forks about a cross; drawn straight, as its angle is not known here. */
function universal(part: ResolvedExtension, { leftPx, rightPx, centreY, pxPerMm }: PartFrame): Outline[] {
  const radius = (part.outsideDiameterMm / 2) * pxPerMm;
  const middle = (leftPx + rightPx) / 2;
  const reach = Math.min(radius * 1.1, (rightPx - leftPx) * 0.22);
  const of = part.id;
  const fork = (near: number, far: number): Outline => ({
    d: turned(centreY, [
      [Math.min(near, far), near < far ? radius : radius * 0.72],
      [Math.max(near, far), near < far ? radius * 0.72 : radius],
    ]),
    ink: 'visible',
    fill: 'steel',
    of,
  });
  return [
    fork(leftPx, middle + reach * 0.35),
    fork(rightPx, middle - reach * 0.35),
    { d: circle(middle, centreY, Math.min(reach * 0.62, radius * 0.6)), ink: 'visible', fill: 'field', of },
    {
      d: line([middle, centreY - radius * 0.72], [middle, centreY + radius * 0.72]),
      ink: 'narrow',
      fill: 'none',
      of,
    },
  ];
}

function hiddenSquare(sideMm: number, { leftPx, rightPx, centreY, pxPerMm }: PartFrame): Outline {
  const half = (sideMm / 2) * pxPerMm;
  const deep = Math.min(sideMm * squareLengthOfSide * pxPerMm, (rightPx - leftPx) * 0.45);
  return { d: box(leftPx, centreY - half, leftPx + deep, centreY + half), ink: 'hidden', fill: 'none', of: 'square' };
}

/** In section where it has an opening; a bit is solid and stays uncut. */
export function socketOutlines(socket: ResolvedSocket, maleSquareMm: number, frame: PartFrame): Outline[] {
  const isBit = socket.openingForm === 'hexKey' || socket.openingForm === 'hexalobular';
  return isBit ? bit(socket, maleSquareMm, frame) : sectioned(socket, maleSquareMm, frame);
}

function sectioned(socket: ResolvedSocket, maleSquareMm: number, frame: PartFrame): Outline[] {
  const { leftPx, rightPx, centreY, pxPerMm } = frame;
  const long = rightPx - leftPx;
  const radius = (socket.outsideDiameterMm / 2) * pxPerMm;
  const squareHalf = Math.min((socket.driveMm / 2) * pxPerMm, radius * 0.86);
  const squareDeep = Math.min(socket.driveMm * squareLengthOfSide * pxPerMm, long * 0.4);
  const openingHalf = Math.min('mm' in socket.size ? (socket.size.mm / 2) * pxPerMm : radius * 0.7, radius * 0.94);
  const roomPx = long - squareDeep;
  const openingDeep =
    socket.innerDepthMm === null ? roomPx * 0.6 : Math.min(socket.innerDepthMm * pxPerMm, roomPx * 0.92);
  const of = socket.id;
  const wall = (side: 1 | -1): Outline => {
    const y = (r: number): number => centreY - side * r;
    const corner = Math.min(radius * 0.12, 3);
    return {
      d: line(
        [leftPx + corner, y(radius)],
        [rightPx - corner, y(radius)],
        [rightPx, y(radius - corner)],
        [rightPx, y(openingHalf)],
        [rightPx - openingDeep, y(openingHalf)],
        [rightPx - openingDeep, y(Math.min(squareHalf, openingHalf) * 0.6)],
        [leftPx + squareDeep, y(Math.min(squareHalf, openingHalf) * 0.6)],
        [leftPx + squareDeep, y(squareHalf)],
        [leftPx, y(squareHalf)],
        [leftPx, y(radius - corner)],
      ).concat('Z'),
      ink: 'visible',
      fill: 'cutSocket',
      of,
    };
  };
  return [
    { d: box(leftPx, centreY - radius, rightPx, centreY + radius), ink: 'none', fill: 'field', of: `${of} bore` },
    wall(1),
    wall(-1),
    ...maleSquare(maleSquareMm, leftPx, squareDeep, frame),
  ];
}

function bit(socket: ResolvedSocket, maleSquareMm: number, frame: PartFrame): Outline[] {
  const { leftPx, rightPx, centreY, pxPerMm } = frame;
  const long = rightPx - leftPx;
  const radius = (socket.outsideDiameterMm / 2) * pxPerMm;
  const tip = 'mm' in socket.size ? Math.min((socket.size.mm / 2) * pxPerMm, radius) : radius * 0.4;
  const bodyEnd = leftPx + Math.min(long * 0.5, radius * 2.6);
  const of = socket.id;
  return [
    {
      d: turned(centreY, [
        [leftPx, radius],
        [bodyEnd, radius],
        [bodyEnd + Math.min(radius * 0.3, long * 0.05), tip],
        [rightPx, tip],
      ]),
      ink: 'visible',
      fill: 'steel',
      of,
    },
    { d: line([bodyEnd, centreY - tip * 0.5], [rightPx, centreY - tip * 0.5]), ink: 'narrow', fill: 'none', of },
    { d: line([bodyEnd, centreY + tip * 0.5], [rightPx, centreY + tip * 0.5]), ink: 'narrow', fill: 'none', of },
    { ...hiddenSquare(Math.min(maleSquareMm, socket.driveMm), frame), of },
  ];
}

/** The square that enters the socket, with the crossed diagonals of a flat face. */
function maleSquare(sideMm: number, leftPx: number, deepPx: number, { centreY, pxPerMm }: PartFrame): Outline[] {
  const half = (sideMm / 2) * pxPerMm;
  const right = leftPx + deepPx * 0.94;
  const of = 'square';
  return [
    { d: box(leftPx, centreY - half, right, centreY + half), ink: 'visible', fill: 'steel', of },
    { d: line([leftPx, centreY - half], [right, centreY + half]), ink: 'narrow', fill: 'none', of },
    { d: line([leftPx, centreY + half], [right, centreY - half]), ink: 'narrow', fill: 'none', of },
  ];
}
