import type { StackParts } from './stackTask.ts';

/**
 * Stacks less those whose pieces include all pieces of another. A stack has one tool and one socket, so only stacks
 * with the same two can include each other, and then by their extensions alone.
 */
export function dropDominated(stacks: readonly StackParts[]): StackParts[] {
  const kept = new Map<string, StackParts>();
  for (const stack of stacks) {
    const key = pieceKey(stack, extensionIds(stack));
    if (!kept.has(key)) kept.set(key, stack);
  }
  return [...kept.values()].filter(
    (stack) => !smallerSelections(extensionIds(stack)).some((ids) => kept.has(pieceKey(stack, ids))),
  );
}

function extensionIds(stack: StackParts): string[] {
  return stack.extensions.map((e) => e.id).toSorted();
}

/** Same pieces, same key, whatever their order in the stack. */
function pieceKey({ tool, socket }: StackParts, extensions: readonly string[]): string {
  return JSON.stringify([tool.id, socket.id, ...extensions]);
}

/** Every proper part of a list of at most three ids, order kept. */
function smallerSelections(ids: readonly string[]): string[][] {
  const all = 2 ** ids.length - 1;
  return Array.from({ length: all }, (_, mask) => ids.filter((_id, bit) => (mask & (1 << bit)) !== 0));
}
