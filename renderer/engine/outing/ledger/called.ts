/** What sentences for people call steps and things by: the name, and the id in brackets where they are not the same. */
import type { ResolvedPlan, ResolvedStep } from '../../plan/resolved.ts';

const longestName = 80;

function called(name: string | undefined, id: string): string {
  if (name === undefined || name === id) return id;
  return name.length <= longestName ? `${name} (${id})` : `${name.slice(0, longestName).trimEnd()}… (${id})`;
}

/** "step Cap the lines (cap)". */
export function stepCalled({ name, id }: Pick<ResolvedStep, 'name' | 'id'>): string {
  return `step ${called(name, id)}`;
}

/** A piece of a stack, gear, or a fastener. */
export function thingCalled(plan: ResolvedPlan, id: string): string {
  return called(plan.carried.get(id)?.name ?? plan.fasteners.get(id)?.name, id);
}

/** A place where things are laid. */
export function placeCalled(plan: ResolvedPlan, id: string): string {
  return called(plan.source.places?.find((place) => place.id === id)?.name, id);
}

/** A bag of the catalog. */
export function bagCalled(plan: ResolvedPlan, id: string): string {
  return called(plan.bags.get(id)?.name, id);
}

/** At the beginning of a sentence. */
export function capital(words: string): string {
  return `${words.charAt(0).toUpperCase()}${words.slice(1)}`;
}
