import type { BagOuting } from '../../../../shared-types/bag.ts';
import type { ResolvedPlan, ResolvedStep } from '../../plan/resolved.ts';
import { atTheSite } from '../../plan/resolveCourse.ts';

/** Steps that are moved together: those of one slot, and a contingency step with what it stands behind. */
export interface Block {
  steps: ResolvedStep[];
  /** Whether the plan leaves its place open. */
  free: boolean;
  /** Blocks that come before it, by number as listed. */
  after: ReadonlySet<number>;
  /** The strings of parts it uses, role by role in order; steps by hand use none. */
  strings: { role: string; string: string }[];
  /** Loose pieces more when it is done, and the most more while it is done. */
  loose: { delta: number; peak: number };
}

/**
 * The blocks of an outing, and what the plan says of their order: steps without `after` keep their order among themselves; a
 * step with it comes after those and no others. Two steps that handle the same fastener or the same unit keep their order too.
 */
export function blocksOf(plan: ResolvedPlan, steps: readonly ResolvedStep[], answer: BagOuting | null): Block[] {
  const groups = grouped(steps);
  const free = groups.map((group) => own(group).every(({ after }) => after !== null));
  const finals = new Set(plan.source.places?.filter(({ final }) => final).map(({ id }) => id));
  return groups.map((group, index) => {
    const named = new Set(own(group).flatMap(({ after }) => after ?? []));
    const before = groups.slice(0, index).flatMap((other, at) => {
      const kept = !free[index] && !free[at];
      const said = other.some(({ id }) => named.has(id));
      return kept || said || handleTheSame(other, group) ? [at] : [];
    });
    return {
      steps: group,
      free: free[index] === true,
      after: new Set(before),
      strings: stringsOf(group, answer),
      loose: looseOf(group, finals),
    };
  });
}

const own = (group: readonly ResolvedStep[]): ResolvedStep[] => group.filter(({ contingency }) => !contingency);

function grouped(steps: readonly ResolvedStep[]): ResolvedStep[][] {
  const groups: ResolvedStep[][] = [];
  const slots = new Map<string, ResolvedStep[]>();
  for (const step of steps) {
    const last = groups.at(-1);
    const slot = step.slot === null || step.contingency ? undefined : slots.get(step.slot);
    if (step.contingency && last !== undefined) last.push(step);
    else if (slot !== undefined) slot.push(step);
    else {
      const group = [step];
      groups.push(group);
      if (step.slot !== null && !step.contingency) slots.set(step.slot, group);
    }
  }
  return groups;
}

function handleTheSame(one: readonly ResolvedStep[], other: readonly ResolvedStep[]): boolean {
  const handled = new Set(one.flatMap(handledBy));
  return other.flatMap(handledBy).some((id) => handled.has(id));
}

function handledBy(step: ResolvedStep): string[] {
  const turned = [step.fastener, step.hold?.fastener].flatMap((fastener) => fastener?.id ?? []);
  return [...turned, ...step.fastenerMoves.map(({ id }) => id), ...step.moves.map(({ id }) => id)];
}

function stringsOf(group: readonly ResolvedStep[], answer: BagOuting | null): Block['strings'] {
  return own(group).flatMap(({ id, role }) => {
    const found = answer?.steps.find((step) => step.id === id);
    if (found === undefined || found.stack.length === 0) return [];
    return [{ role, string: JSON.stringify([found.stack, found.hold]) }];
  });
}

function looseOf(group: readonly ResolvedStep[], finals: ReadonlySet<string>): Block['loose'] {
  let delta = 0;
  let peak = 0;
  for (const step of own(group)) {
    for (const { from, to, quantity, washers } of step.fastenerMoves) {
      if (from === atTheSite) delta += quantity + washers;
      if (to === atTheSite) delta -= quantity + washers;
    }
    const lies = (place: string): boolean => place !== 'bag' && !finals.has(place);
    for (const { from, to, quantity } of step.moves) {
      if (lies(from)) delta -= quantity;
      if (lies(to)) delta += quantity;
    }
    peak = Math.max(peak, delta);
  }
  return { delta, peak };
}
