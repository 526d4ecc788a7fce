/**
 * Do the pieces in the bags of an outing serve all its steps? Pieces are counted by position in a list of ids, own
 * bags by role; a slot's roles draw from bags without role only what their own bags lack, and those draws add up.
 */
import type { BreakName } from './breaks.ts';
import type { Choice, Moment, StepNeeds } from './needs.ts';

export interface Pieces {
  /** Pieces in bags without role. */
  shared: number[];
  /** Pieces in the bags of each role. */
  own: Map<string, number[]>;
}

export interface VectorChoice {
  choice: Choice;
  needs: number[];
}

export type Vectors = Map<StepNeeds, VectorChoice[]>;

const within = (needs: readonly number[], most: (index: number) => number): boolean =>
  needs.every((count, index) => count <= most(index));

/**
 * Choices of a step as vectors, without those that need at least as much of everything as another: taking the other
 * instead frees pieces and takes none, so the least bag is the same.
 */
export function vectorsOf(step: StepNeeds, ids: readonly string[]): VectorChoice[] {
  const kept: VectorChoice[] = [];
  const total = (needs: readonly number[]): number => needs.reduce((sum, count) => sum + count, 0);
  const all = step.choices.map((choice) => ({ choice, needs: ids.map((id) => choice.counts.get(id) ?? 0) }));
  for (const one of all.toSorted((a, b) => total(a.needs) - total(b.needs))) {
    if (!kept.some((less) => within(less.needs, (index) => one.needs[index] ?? 0))) kept.push(one);
  }
  return kept;
}

function servesSlot(
  moment: Moment,
  vectors: Vectors,
  pieces: Pieces,
  chosen: Map<StepNeeds, Choice>,
  broken?: BreakName,
): boolean {
  const size = pieces.shared.length;
  const steps = moment.roles.flatMap(({ role, steps: mates }) => mates.map((step) => ({ role, step })));
  const needs = new Map(moment.roles.map(({ role }) => [role, pieces.shared.map(() => 0)]));
  const fits = (): boolean => {
    for (let index = 0; index < size; index++) {
      let drawn = 0;
      for (const [role, counts] of needs) {
        const own = broken === 'ownFirst' ? 0 : (pieces.own.get(role)?.[index] ?? 0);
        const draw = Math.max(0, (counts[index] ?? 0) - own);
        drawn = broken === 'slot' ? Math.max(drawn, draw) : drawn + draw;
      }
      if (drawn > (pieces.shared[index] ?? 0)) return false;
    }
    return true;
  };
  const next = (at: number): boolean => {
    const one = steps[at];
    if (one === undefined) return true;
    const before = needs.get(one.role) ?? [];
    for (const vector of vectors.get(one.step) ?? []) {
      const after = before.map((count, index) => {
        const more = vector.needs[index] ?? 0;
        return broken === 'slotSteps' ? count + more : Math.max(count, more);
      });
      needs.set(one.role, after);
      // Needs only grow, so pieces that are short now stay short.
      if (fits() && next(at + 1)) {
        chosen.set(one.step, vector.choice);
        return true;
      }
    }
    needs.set(one.role, before);
    return false;
  };
  return next(0);
}

/** The choice of each step that the pieces allow, or null where some step has none. */
export function serve(
  moments: readonly Moment[],
  vectors: Vectors,
  pieces: Pieces,
  broken?: BreakName,
): Map<StepNeeds, Choice> | null {
  const chosen = new Map<StepNeeds, Choice>();
  for (const moment of moments) {
    const [first, ...others] = moment.roles;
    const alone = first !== undefined && others.length === 0 && broken !== 'slotSteps';
    if (!alone) {
      if (!servesSlot(moment, vectors, pieces, chosen, broken)) return null;
      continue;
    }
    const own = pieces.own.get(first.role);
    for (const step of first.steps) {
      const found = vectors
        .get(step)
        ?.find(({ needs }) => within(needs, (index) => (pieces.shared[index] ?? 0) + (own?.[index] ?? 0)));
      if (found === undefined) return null;
      chosen.set(step, found.choice);
    }
  }
  return chosen;
}
