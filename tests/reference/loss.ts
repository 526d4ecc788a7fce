/**
 * Do the pieces still serve when something is lost? After a loss every step is looked at alone: steps of a slot may run
 * one after another, and pieces may change hands whatever bag they lie in.
 */
import type { BreakName } from './breaks.ts';
import type { Moment, StepNeeds } from './needs.ts';
import { pieceCounts, stackIds } from './rules.ts';
import { serve, vectorsOf } from './serving.ts';
import type { Pieces, Vectors } from './serving.ts';

/** The most pieces of each id that any one step could use. */
export const mostOfAnyStep = (ids: readonly string[], vectors: Vectors): number[] =>
  ids.map((_, index) =>
    Math.max(0, ...[...vectors.values()].flatMap((choices) => choices.map(({ needs }) => needs[index] ?? 0))),
  );

const everyStepServed = (left: readonly number[], vectors: Vectors): boolean =>
  [...vectors.values()].every((choices) =>
    choices.some(({ needs }) => needs.every((count, index) => count <= (left[index] ?? 0))),
  );

/** Whether every step has a stack whichever one piece is lost. */
export function standsPieceLoss(
  counts: readonly number[],
  moments: readonly Moment[],
  vectors: Vectors,
  broken?: BreakName,
): boolean {
  if (broken === 'pieceLoss') return true;
  return counts.every((count, lost) => {
    if (count === 0) return true;
    const left = counts.map((one, index) => (index === lost ? (broken === 'lossCopies' ? 0 : one - 1) : one));
    if (broken === 'lossSlots') return serve(moments, vectors, { shared: left, own: new Map() }) !== null;
    return everyStepServed(left, vectors);
  });
}

/** Whether every step has a stack whichever one bag is lost; pieces are given by bag. */
export function standsBagLoss(byBag: readonly number[][], vectors: Vectors, broken?: BreakName): boolean {
  if (broken === 'bagLoss' || broken === 'bagLossPiece') return true;
  const total = (byBag[0] ?? []).map((_, index) => byBag.reduce((sum, inside) => sum + (inside[index] ?? 0), 0));
  return byBag.every((inside) =>
    everyStepServed(
      total.map((count, index) => count - (inside[index] ?? 0)),
      vectors,
    ),
  );
}

/** With one rule broken: whether the roles, each with its own bags still, are served whichever one piece is lost. */
export function leavesEnough(pieces: Pieces, moments: readonly Moment[], vectors: Vectors): boolean {
  const alone = moments.flatMap(({ roles }): Moment[] =>
    roles.flatMap(({ role, steps }) => steps.map((step) => ({ roles: [{ role, steps: [step] }] }))),
  );
  const stands = (from: number[], rest: (less: number[]) => Pieces): boolean =>
    from.every(
      (count, lost) =>
        count === 0 || serve(alone, vectors, rest(from.map((one, index) => (index === lost ? one - 1 : one)))) !== null,
    );
  return (
    stands(pieces.shared, (shared) => ({ ...pieces, shared })) &&
    [...pieces.own].every(([role, own]) =>
      stands(own, (less) => ({ ...pieces, own: new Map([...pieces.own, [role, less]]) })),
    )
  );
}

/** With one rule broken: what the steps use when nothing need be held. */
export function vectorsWithoutHold(steps: readonly StepNeeds[], ids: readonly string[]): Vectors {
  return new Map(
    steps.map((one) => {
      const choices = one.choices.map((choice) => ({
        ...choice,
        hold: null,
        counts: pieceCounts(choice.stack === null ? [] : stackIds(choice.stack)),
      }));
      return [one, vectorsOf({ ...one, choices }, ids)];
    }),
  );
}
