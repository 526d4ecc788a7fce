import type { ResolvedAccess } from '../plan/resolved.ts';
import { atLeast, atMost } from '../tolerance.ts';

/** So wide from a depth on, as far as the next stretch; null where it is not said. */
export interface Stretch {
  fromMm: number;
  clearMm: number | null;
}

type Hole = Pick<ResolvedAccess, 'depthMm' | 'clearDiameterMm' | 'profile'>;

/** The hole from its mouth to the head; without a profile one stretch. */
export function stretchesOf({ clearDiameterMm, profile }: Pick<Hole, 'clearDiameterMm' | 'profile'>): Stretch[] {
  return [
    ...profile.map(({ clearMm }, index): Stretch => ({ fromMm: profile[index - 1]?.toMm ?? 0, clearMm })),
    { fromMm: profile.at(-1)?.toMm ?? 0, clearMm: clearDiameterMm },
  ];
}

/** Whether a stretch lies before the head at all. */
const isIn = ({ fromMm }: Stretch, { depthMm }: Hole): boolean => !atLeast(fromMm, depthMm);

/**
 * Rule 4 along the depth: how far from the head, going out, a part must begin, so that on its way in it has to pass no stretch that is too
 * narrow for it. It passes every stretch from the mouth to where its inner end comes to rest.
 *
 * @param hole - its depth and how wide it is along it [mm]
 * @param outsideDiameterMm - of the part [mm]
 * @returns distance from the head [mm]: 0 where it may begin there, the depth where it may not enter at all
 * @throws nothing
 * @source rule 4 of command `bag`, stretch by stretch
 * @validity round holes and parts; what is not said of a width limits nothing
 * @example leastBeginMm of 30 mm in a hole 150 mm deep, 32 mm wide to 100 mm, then 26 mm // 50
 */
export function leastBeginMm(hole: Hole, outsideDiameterMm: number): number {
  const tight = stretchesOf(hole).find(
    (stretch) => isIn(stretch, hole) && stretch.clearMm !== null && !atMost(outsideDiameterMm, stretch.clearMm),
  );
  return tight === undefined ? 0 : hole.depthMm - tight.fromMm;
}

/** The narrowest of the stretches that a part passes which begins so far from the head; null where nothing is said of any. */
export function narrowestOnTheWay(hole: Hole, beginMm: number): { clearMm: number; fromMm: number } | null {
  let narrowest: { clearMm: number; fromMm: number } | null = null;
  for (const stretch of stretchesOf(hole)) {
    const { fromMm, clearMm } = stretch;
    if (clearMm === null || !isIn(stretch, hole) || atLeast(beginMm, hole.depthMm - fromMm)) continue;
    if (narrowest === null || clearMm < narrowest.clearMm) narrowest = { clearMm, fromMm };
  }
  return narrowest;
}

/** Whether some stretch before the head has no clear diameter: there nothing is checked. */
export function isWidthUnknown(hole: Hole): boolean {
  return stretchesOf(hole).some((stretch) => isIn(stretch, hole) && stretch.clearMm === null);
}
