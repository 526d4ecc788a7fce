import type { Carried, ResolvedPlan } from '../../engine/plan/resolved.ts';
import { box, circle, closed, line } from '../StackDrawing/outline.ts';

/** A piece lying flat, in mm from its upper left corner. */
export interface Silhouette {
  widthMm: number;
  heightMm: number;
  /** Outlines for a scale, so that rounded ends and grips keep their look at any size. */
  draw: (pxPerMm: number) => { outer: string[]; inner: string[] };
  /** Which of its sizes the plan gives: both, its length alone, or none. */
  toScale: 'both' | 'length' | 'none';
}

const unknownMm = 60;

/** What the plan knows of an item's size; the rest is schematic. */
export function silhouetteOf(plan: ResolvedPlan, item: Carried): Silhouette {
  const extension = plan.extensions.get(item.id);
  if (extension !== undefined) return bar(extension.lengthMm, extension.outsideDiameterMm);
  const socket = plan.sockets.get(item.id);
  if (socket !== undefined) return cup(socket.lengthMm, socket.outsideDiameterMm);
  const tool = plan.tools.get(item.id);
  if (tool !== undefined)
    return handle(
      tool.leverMm === null ? tool.sizeMm : (tool.sizeMm ?? tool.leverMm * 1.1),
      tool.kind === 'torqueTool',
    );
  return pack(item.sizeMm);
}

function bar(lengthMm: number, diameterMm: number): Silhouette {
  return {
    widthMm: lengthMm,
    heightMm: diameterMm,
    toScale: 'both',
    draw: (k) => {
      const [w, h] = [lengthMm * k, diameterMm * k];
      const boss = Math.min(w * 0.3, h * 1.1);
      const collar = Math.min(w * 0.16, h * 0.6);
      const thin = h * 0.2;
      return {
        outer: [
          closed(
            [0, 0],
            [boss, 0],
            [boss, thin],
            [w - collar, thin],
            [w - collar, 0],
            [w, 0],
            [w, h],
            [w - collar, h],
            [w - collar, h - thin],
            [boss, h - thin],
            [boss, h],
            [0, h],
          ),
        ],
        inner: [],
      };
    },
  };
}

function cup(lengthMm: number, diameterMm: number): Silhouette {
  return {
    widthMm: lengthMm,
    heightMm: diameterMm,
    toScale: 'both',
    draw: (k) => {
      const [w, h] = [lengthMm * k, diameterMm * k];
      return { outer: [box(0, 0, w, h)], inner: [line([w * 0.42, 0], [w * 0.42, h])] };
    },
  };
}

function handle(lengthMm: number | null, measures: boolean): Silhouette {
  const length = lengthMm ?? unknownMm * 3;
  const heightMm = Math.max(22, length * 0.11);
  return {
    widthMm: length,
    heightMm,
    toScale: lengthMm === null ? 'none' : 'length',
    draw: (k) => {
      const [w, h] = [length * k, heightMm * k];
      const middle = h / 2;
      const grip = w * 0.36;
      const head = Math.min(h, w * 0.3);
      const shaft = h * 0.22;
      const outer = [
        box(0, h * 0.12, grip, h * 0.88),
        box(grip, middle - shaft, w - head * 0.92, middle + shaft),
        measures
          ? closed(
              [w - head, middle - shaft],
              [w - head * 0.6, 0],
              [w, 0],
              [w, h],
              [w - head * 0.6, h],
              [w - head, middle + shaft],
            )
          : circle(w - head / 2, middle, head / 2),
      ];
      const inner = measures
        ? [0.25, 0.5, 0.75].map((share) => line([grip * share, h * 0.12], [grip * share, h * 0.88]))
        : [circle(w - head / 2, middle, head / 4)];
      return { outer, inner };
    },
  };
}

function pack(sizeMm: number | null): Silhouette {
  const widthMm = sizeMm ?? unknownMm;
  const heightMm = widthMm * 0.55;
  return {
    widthMm,
    heightMm,
    toScale: sizeMm === null ? 'none' : 'length',
    draw: (k) => {
      const [w, h] = [widthMm * k, heightMm * k];
      const cut = Math.min(w, h) * 0.16;
      return {
        outer: [closed([cut, 0], [w - cut, 0], [w, cut], [w, h - cut], [w - cut, h], [cut, h], [0, h - cut], [0, cut])],
        inner: [line([0, h * 0.3], [w, h * 0.3])],
      };
    },
  };
}
