import type { PatternPoint } from './readPattern.ts';
import type { Turn } from './pattern.ts';

/** From where the worker looks at the heads: from their own side, or, through a mirror or around the part, from behind. */
export interface SeenFrom {
  mirrored: boolean;
}

/**
 * Places as the worker sees them.
 *
 *   from behind: x' = −x
 *
 * @returns the same points; from behind, right and left change
 * @throws nothing
 * @source geometry
 * @validity positions in one plane
 * @example pointsSeen([{ position: '1', xMm: 5, yMm: 2 }], { mirrored: true }) // 1 at (−5, 2)
 */
export function pointsSeen(points: readonly PatternPoint[], { mirrored }: SeenFrom): PatternPoint[] {
  return mirrored ? points.map((point) => ({ ...point, xMm: 0 - point.xMm })) : [...points];
}

/**
 * Which way a fastener turns as the worker sees it.
 *
 * @param x.hand - of its thread
 * @param x.tightens - whether it is tightened
 * @returns clockwise for what tightens a right-hand thread seen from its head; each of left hand, loosening and a view from behind turns it
 * @throws nothing
 * @source a right-hand thread tightens clockwise by its definition
 * @validity threads; quarter-turn fasteners say their own way
 * @example turnSeen({ hand: 'left', tightens: true, mirrored: true }) // 'clockwise'
 */
export function turnSeen({ hand, tightens, mirrored }: { hand: 'left' | 'right'; tightens: boolean } & SeenFrom): Turn {
  const changes = Number(hand === 'left') + Number(!tightens) + Number(mirrored);
  return changes % 2 === 0 ? 'clockwise' : 'counterclockwise';
}
