import type { Pieces, TableGroup } from '../search/coverTable.ts';
import { packedStacks } from '../search/coverTable.ts';
import { isServed } from '../search/isServed.ts';

/** Stacks looked at before the question is left open. */
const stacksMost = 500;

/**
 * Whether a bag that all hands draw on serves roles that work at the same time. Steps of one role come one after
 * another and share their pieces, those of different roles do not.
 *
 * @returns null where it takes too long to say
 */
export function servesTogether(groups: readonly TableGroup[], have: Int32Array): boolean | null {
  const roles = [...new Set(groups.map(({ group }) => group.role))];
  const flows = groups.flatMap(({ group, main, hold }) =>
    [main, ...(hold ? [hold] : [])].map((flow) => ({ role: group.role, step: group, flow })),
  );
  /** Of each flow, the pieces of its stack. */
  const taken: Pieces[] = [];
  let looked = 0;
  const usedBeside = (index: number): Int32Array => {
    const used = new Int32Array(have.length);
    const own = flows[index];
    for (const role of roles) {
      if (role === own?.role) continue;
      addMost(used, role);
    }
    // What the same step holds with is used beside its stack.
    for (const [at, pieces] of taken.entries()) {
      if (at < index && flows[at]?.step === own?.step) for (const piece of pieces) used[piece] = (used[piece] ?? 0) + 1;
    }
    return used;
  };
  const addMost = (used: Int32Array, role: string): void => {
    const most = new Map<number, number>();
    for (const step of new Set(flows.filter((one) => one.role === role).map((one) => one.step))) {
      const counts = new Map<number, number>();
      for (const [at, pieces] of taken.entries()) {
        if (flows[at]?.step === step) for (const piece of pieces) counts.set(piece, (counts.get(piece) ?? 0) + 1);
      }
      for (const [piece, count] of counts) most.set(piece, Math.max(most.get(piece) ?? 0, count));
    }
    for (const [piece, count] of most) used[piece] = (used[piece] ?? 0) + count;
  };
  const choose = (index: number): boolean | null => {
    const next = flows[index];
    if (!next) return true;
    const supply = { have, used: usedBeside(index) };
    if (index === flows.length - 1) return isServed(next.flow, supply);
    for (const pieces of packedStacks(next.flow, supply)) {
      looked += 1;
      if (looked > stacksMost) return null;
      taken.push(pieces);
      const rest = choose(index + 1);
      taken.pop();
      if (rest !== false) return rest;
    }
    return false;
  };
  const nothing = new Int32Array(have.length);
  if (flows.some(({ flow }) => !isServed(flow, { have, used: nothing }))) return false;
  return choose(0);
}
