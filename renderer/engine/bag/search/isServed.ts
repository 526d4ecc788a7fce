import type { Supply, TableFlow } from './coverTable.ts';

/** Whether some stack is made of what is packed and not in use: the question that is asked most. */
export function isServed({ joints, ladders }: TableFlow, { have, used }: Pick<Supply, 'have' | 'used'>): boolean {
  const free = (piece: number): boolean => (have[piece] ?? 0) > (used[piece] ?? 0);
  const turned = joints.map((list) => list.some(free));
  return ladders.some(({ rungs, chains }) => {
    const longest = rungs.findLastIndex((rung) => rung.some(free));
    if (longest < 0) return false;
    for (const { links, joint, from } of chains) {
      if (from > longest || turned[joint] !== true) continue;
      let whole = true;
      for (const { pieces, times } of links) {
        let left = times;
        for (const piece of pieces) {
          left -= Math.max(0, (have[piece] ?? 0) - (used[piece] ?? 0));
          if (left <= 0) break;
        }
        if (left > 0) {
          whole = false;
          break;
        }
      }
      if (whole) return true;
    }
    return false;
  });
}
