import { RefusedError } from '../../../engine/errors.ts';
import { hexalobularDrive } from '../../../engine/socket/index.ts';
import { circle, closed, line, onCircle } from '../../../components/StackDrawing/outline.ts';
import type { Outline, Point } from '../../../components/StackDrawing/outline.ts';
import type { HeadForm } from '../../../../shared-types/plan.ts';
import type { ResolvedSocket } from '../../../engine/plan/resolved.ts';

/** What is seen from an end: the round body and the square, hexagon or points in it. */
export interface EndFrame {
  centre: Point;
  radiusPx: number;
  pxPerMm: number;
}

const reachPx = 10;

function cross({ centre: [x, y], radiusPx }: EndFrame): Outline[] {
  const reach = radiusPx + reachPx;
  return [
    { d: line([x - reach, y], [x + reach, y]), ink: 'centre', fill: 'none', of: 'axis' },
    { d: line([x, y - reach], [x, y + reach]), ink: 'centre', fill: 'none', of: 'axis' },
  ];
}

function body({ centre: [x, y], radiusPx }: EndFrame): Outline {
  return { d: circle(x, y, radiusPx), ink: 'visible', fill: 'steel', of: 'body' };
}

/** A square drive: hollow where it takes a square, solid where it is one. */
export function squareEnd(frame: EndFrame, sideMm: number, solid: boolean): Outline[] {
  const half = (sideMm / 2) * frame.pxPerMm;
  const [x, y] = frame.centre;
  const d = closed([x - half, y - half], [x + half, y - half], [x + half, y + half], [x - half, y + half]);
  return [body(frame), { d, ink: 'visible', fill: solid ? 'tool' : 'field', of: 'square' }, ...cross(frame)];
}

/** A regular polygon by its width across flats, a flat on top. */
function polygon(centre: Point, acrossFlatsPx: number, corners: number, turnDeg = 0): string {
  const radius = acrossFlatsPx / 2 / Math.cos(Math.PI / corners);
  const step = 360 / corners;
  return closed(
    ...Array.from({ length: corners }, (_, index) => onCircle(centre, radius, index * step + step / 2 + turnDeg)),
  );
}

/** Across the tips of the six lobes where the size is held; else as wide as half the body, and schematic. */
function lobesAcrossPx(size: string, { pxPerMm, radiusPx }: EndFrame): number {
  try {
    return hexalobularDrive({ size }).referenceAMm * pxPerMm;
  } catch (error) {
    if (error instanceof RefusedError) return radiusPx;
    throw error;
  }
}

/** The opening of a socket, or the tip of a bit, from its end. Of a hexalobular outline the width across the lobes is to scale. */
export function openingEnd(frame: EndFrame, socket: ResolvedSocket): Outline[] {
  const { centre, pxPerMm } = frame;
  const flatsPx = 'mm' in socket.size ? socket.size.mm * pxPerMm : lobesAcrossPx(socket.size.text, frame);
  const of = 'opening';
  switch (socket.openingForm) {
    case 'hex6':
      return [body(frame), { d: polygon(centre, flatsPx, 6), ink: 'visible', fill: 'field', of }, ...cross(frame)];
    case 'hexKey':
      return [body(frame), { d: polygon(centre, flatsPx, 6), ink: 'visible', fill: 'tool', of }, ...cross(frame)];
    case 'square':
      return [body(frame), { d: polygon(centre, flatsPx, 4), ink: 'visible', fill: 'field', of }, ...cross(frame)];
    case 'hex12':
      return [body(frame), { d: star(centre, flatsPx), ink: 'visible', fill: 'field', of }, ...cross(frame)];
    case 'hexalobular':
      return [body(frame), { d: lobes(centre, flatsPx / 2), ink: 'visible', fill: 'tool', of }, ...cross(frame)];
  }
}

/** A head seen from its end with its flats upright, so that the width across them lies level; a drive in a head of no known size. */
export function headEnd(
  { centre, pxPerMm }: Pick<EndFrame, 'centre' | 'pxPerMm'>,
  { headForm, acrossMm, majorMm }: { headForm: HeadForm; acrossMm: number; majorMm: number },
): { outlines: Outline[]; radiusPx: number } {
  const across = acrossMm * pxPerMm;
  const isDrive = headForm === 'hex-socket' || headForm === 'hexalobular';
  const radiusPx = isDrive
    ? Math.max(1.5 * majorMm, 1.4 * acrossMm) * pxPerMm * 0.5
    : across / 2 / Math.cos(Math.PI / 6);
  const frame = { centre, pxPerMm, radiusPx };
  const d =
    headForm === 'square'
      ? polygon(centre, across, 4)
      : headForm === 'twelve-point'
        ? star(centre, across, 15)
        : headForm === 'hexalobular'
          ? lobes(centre, across / 2, 90)
          : polygon(centre, across, 6, 30);
  const thread: Outline = {
    d: circle(centre[0], centre[1], (majorMm / 2) * pxPerMm),
    ...{ ink: 'hidden', fill: 'none', of: 'thread' },
  };
  const head: Outline = { d, ink: 'visible', fill: isDrive ? 'field' : 'brass', of: 'head' };
  return {
    outlines: [
      ...(isDrive ? [{ ...body(frame), fill: 'brass' as const, of: 'round head' }] : []),
      head,
      thread,
      ...cross(frame),
    ],
    radiusPx,
  };
}

/** Two hexagons laid over each other: points at the corners, notches where their flats cross. */
function star(centre: Point, flatsPx: number, turnDeg = 0): string {
  const corner = flatsPx / 2 / Math.cos(Math.PI / 6);
  const notch = flatsPx / 2 / Math.cos(Math.PI / 12);
  return closed(
    ...Array.from({ length: 24 }, (_, index) =>
      onCircle(centre, index % 2 === 0 ? corner : notch, index * 15 + turnDeg),
    ),
  );
}

function lobes(centre: Point, radius: number, turnDeg = 0): string {
  return closed(
    ...Array.from({ length: 72 }, (_, index) => {
      const deg = index * 5;
      return onCircle(centre, radius * (0.86 + 0.14 * Math.cos((6 * deg * Math.PI) / 180)), deg + turnDeg);
    }),
  );
}
