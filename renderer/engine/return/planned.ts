import type { ResolvedPlan, ResolvedStep } from '../plan/resolved.ts';

/** What the plan has lie at a place when an outing is over, or about to begin. */
export interface PlannedThere {
  item: string;
  place: string;
  pieces: number;
  /** Code of the step that brought the last of it. */
  step: string;
}

/** What the plan has come home that an earlier outing left: from which place, by which step. */
export type PlannedHome = PlannedThere;

interface Move extends PlannedThere {
  from: string;
  to: string;
}

function movesOf(plan: ResolvedPlan, outing: string): Move[] {
  return plan.steps
    .filter((step: ResolvedStep) => step.outing === outing)
    .flatMap((step) =>
      step.moves.map(({ id, quantity, from, to }) => ({
        item: id,
        pieces: quantity,
        from,
        to,
        place: to,
        step: step.id,
      })),
    );
}

/** Moves as rule 15 counts them: one of more than is there moves what is there. */
function followed(moves: readonly Move[]): PlannedThere[] {
  const there = new Map<string, PlannedThere>();
  for (const { item, pieces, from, to, step } of moves) {
    const source = there.get(JSON.stringify([item, from]));
    const moved = from === 'bag' ? pieces : Math.min(pieces, source?.pieces ?? 0);
    if (source !== undefined && from !== 'bag') source.pieces -= moved;
    if (to === 'bag' || moved === 0) continue;
    const key = JSON.stringify([item, to]);
    there.set(key, { item, place: to, pieces: (there.get(key)?.pieces ?? 0) + moved, step });
  }
  return [...there.values()].filter(({ pieces }) => pieces > 0);
}

function until(plan: ResolvedPlan, outing: string, andItself: boolean): Move[] {
  const at = plan.outings.findIndex(({ id }) => id === outing);
  return plan.outings.slice(0, at + (andItself ? 1 : 0)).flatMap(({ id }) => movesOf(plan, id));
}

/**
 * What the plan has lie at its places before an outing begins, by the moves of the outings before it.
 *
 * @param plan - with its moves
 * @param outing - code of the outing
 */
export function plannedBefore(plan: ResolvedPlan, outing: string): PlannedThere[] {
  return followed(until(plan, outing, false));
}

/**
 * What an outing's own moves have stay somewhere when it comes home: of what it took along, more than it fetched.
 *
 * @param plan - with its moves
 * @param outing - code of the outing
 */
export function plannedToStay(plan: ResolvedPlan, outing: string): PlannedThere[] {
  const before = plannedBefore(plan, outing);
  return followed(until(plan, outing, true)).flatMap((after) => {
    const there = before.find(({ item, place }) => item === after.item && place === after.place)?.pieces ?? 0;
    return after.pieces > there ? [{ ...after, pieces: after.pieces - there }] : [];
  });
}

/**
 * What an outing's moves bring home, or elsewhere, of what lay at a place before it began.
 *
 * @param plan - with its moves
 * @param outing - code of the outing
 */
export function plannedToComeHome(plan: ResolvedPlan, outing: string): PlannedHome[] {
  const after = followed(until(plan, outing, true));
  const fetching = movesOf(plan, outing);
  return plannedBefore(plan, outing).flatMap((before) => {
    const still = after.find(({ item, place }) => item === before.item && place === before.place)?.pieces ?? 0;
    const step = fetching.findLast(({ item, from }) => item === before.item && from === before.place)?.step;
    return still < before.pieces ? [{ ...before, pieces: before.pieces - still, step: step ?? before.step }] : [];
  });
}
