import type { Option } from './options.ts';

/** What one step of a role may use, in preference. */
export interface StepOptions {
  step: string;
  options: readonly Option[];
}

/**
 * Of each step's equally preferred options the ones with which its role changes stacks least often on the way through
 * its steps; of several such ways the one that comes first by ids.
 *
 *   changes(i, o) = min over o' of changes(i + 1, o') + (o ≠ o')
 *
 * @param steps - of one role, in the order of the work
 * @returns by step
 */
export function fewestChanges(steps: readonly StepOptions[]): Map<string, Option> {
  const after: number[][] = [];
  for (let index = steps.length - 1; index >= 0; index -= 1) {
    const next = steps[index + 1]?.options ?? [];
    const best = after[index + 1] ?? [];
    after[index] = (steps[index]?.options ?? []).map((option) =>
      next.length === 0 ? 0 : Math.min(...next.map((other, at) => (best[at] ?? 0) + Number(other.ids !== option.ids))),
    );
  }
  const chosen = new Map<string, Option>();
  let before: Option | null = null;
  for (const [index, { step, options }] of steps.entries()) {
    let found: { option: Option; changes: number } | null = null;
    for (const [at, option] of options.entries()) {
      const changes: number = (after[index]?.[at] ?? 0) + Number(before !== null && before.ids !== option.ids);
      if (!found || changes < found.changes) found = { option, changes };
    }
    if (!found) continue;
    chosen.set(step, found.option);
    before = found.option;
  }
  return chosen;
}
