import type { StepGroup } from '../outingWork.ts';
import type { Supply } from './coverTable.ts';
import type { Covering } from './covering.ts';
import { fatalLosses, servedBy } from './standing.ts';

/** Losses that are not survived, by group: what a program that was told too few of them is told next. */
export function missedLosses(
  { standingWhole, table }: Covering,
  have: Int32Array,
): { group: StepGroup; piece: string }[] {
  const supply: Supply = { have, used: new Int32Array(have.length), cost: table.cost, most: have };
  return standingWhole.flatMap((group) =>
    (fatalLosses(group, supply) ?? []).map((piece) => ({ group: group.group, piece: table.ids[piece] ?? '' })),
  );
}

/** Losses that a bag stands only by another stack than the one at hand: the first that a program is told. */
export function likelyLosses(
  { standingWhole, table }: Covering,
  have: Int32Array,
): { group: StepGroup; piece: string }[] {
  const supply: Supply = { have, used: new Int32Array(have.length), cost: table.cost, most: have };
  return standingWhole.flatMap((group) =>
    [...new Set(servedBy(group, supply))]
      .filter((piece) => have[piece] === 1)
      .map((piece) => ({ group: group.group, piece: table.ids[piece] ?? '' })),
  );
}
