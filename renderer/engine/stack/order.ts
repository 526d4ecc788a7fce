import type { StackParts } from './stackTask.ts';
import { stackIds } from './stackTask.ts';

/**
 * Mass of a stack.
 *
 *   m = tool + Σ extensions + socket
 *
 * @returns m [kg]
 * @throws nothing
 * @source addition of the masses the plan gives
 * @validity one piece of each part
 * @example stackMassKg of a 0.5 kg tool with a 0.1 kg socket // 0.6
 */
export function stackMassKg({ tool, extensions, socket }: StackParts): number {
  return extensions.reduce((sum, e) => sum + e.massKg, tool.massKg + socket.massKg);
}

/**
 * Lightest first; of equals, fewer parts, then six points before twelve where the step loosens (they bear on the
 * flats, not on the corners), then ids.
 */
export function inOrder(stacks: readonly StackParts[], loosens: boolean): StackParts[] {
  return byIds(stacks, stackIds)
    .map((parts) => ({ parts, massKg: stackMassKg(parts), twelve: cornersLast(parts, loosens) }))
    .toSorted(
      (a, b) => a.massKg - b.massKg || a.parts.extensions.length - b.parts.extensions.length || a.twelve - b.twelve,
    )
    .map(({ parts }) => parts);
}

/** 1 for twelve points where the step loosens, else 0: what comes later of equals. */
export function cornersLast({ socket }: StackParts, loosens: boolean): number {
  return Number(loosens && socket.openingForm === 'hex12');
}

/** In the order of their ids as texts; no two of a list have the same. */
function byIds<T>(list: readonly T[], idsOf: (one: T) => readonly string[]): T[] {
  const named = new Map(list.map((one) => [idsOf(one).join('\n'), one]));
  return [...named.keys()].toSorted().flatMap((ids) => named.get(ids) ?? []);
}
