import type { PieceSize } from '../../engine/bagMap/pieceSize.ts';
import type { ResolvedPlan } from '../../engine/plan/resolved.ts';
import { box, circle, closed, line } from '../StackDrawing/outline.ts';

/** Outlines of a piece lying flat, at a scale: rounded ends and grips keep their look at any size. */
export interface Silhouette {
  outer: string[];
  inner: string[];
}

/** What an item looks like from above, as long and wide as `piece` says. */
export function silhouetteOf(plan: ResolvedPlan, id: string, piece: PieceSize, pxPerMm: number): Silhouette {
  const [w, h] = [piece.lengthMm * pxPerMm, piece.acrossMm * pxPerMm];
  if (plan.extensions.has(id)) return bar(w, h);
  if (plan.sockets.has(id)) return cup(w, h);
  const tool = plan.tools.get(id);
  return tool === undefined ? pack(w, h) : handle(w, h, tool.kind === 'torqueTool');
}

function bar(w: number, h: number): Silhouette {
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
}

function cup(w: number, h: number): Silhouette {
  return { outer: [box(0, 0, w, h)], inner: [line([w * 0.42, 0], [w * 0.42, h])] };
}

function handle(w: number, h: number, measures: boolean): Silhouette {
  const middle = h / 2;
  const grip = w * 0.36;
  const head = Math.min(h, w * 0.3);
  const shaft = h * 0.22;
  return {
    outer: [
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
    ],
    inner: measures
      ? [0.25, 0.5, 0.75].map((share) => line([grip * share, h * 0.12], [grip * share, h * 0.88]))
      : [circle(w - head / 2, middle, head / 4)],
  };
}

function pack(w: number, h: number): Silhouette {
  const cut = Math.min(w, h) * 0.16;
  return {
    outer: [closed([cut, 0], [w - cut, 0], [w, cut], [w, h - cut], [w - cut, h], [cut, h], [0, h - cut], [0, cut])],
    inner: [line([0, h * 0.3], [w, h * 0.3])],
  };
}
