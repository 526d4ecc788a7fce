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
  return stacks
    .map((parts) => ({
      parts,
      massKg: stackMassKg(parts),
      twelve: loosens && parts.socket.openingForm === 'hex12' ? 1 : 0,
      ids: stackIds(parts).join('\n'),
    }))
    .toSorted(
      (a, b) =>
        a.massKg - b.massKg ||
        a.parts.extensions.length - b.parts.extensions.length ||
        a.twelve - b.twelve ||
        (a.ids < b.ids ? -1 : a.ids > b.ids ? 1 : 0),
    )
    .map(({ parts }) => parts);
}
