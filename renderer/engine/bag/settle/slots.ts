import type { StackStock } from '../../stack/ways.ts';
import type { Counts } from '../counts.ts';
import { mostOf } from '../counts.ts';
import type { Content } from '../contents.ts';
import type { StepGroup } from '../outingWork.ts';
import { drawsFrom } from '../outingWork.ts';
import type { Option } from './options.ts';
import { optionsFrom, supplyOf } from './options.ts';

/**
 * A stack for each group of a slot, so that all roles have theirs at one time: the first that goes together, groups in
 * their order, options in theirs.
 *
 * @returns null where they do not go together, which a solved bag never shows
 */
export function slotOptions(
  stock: StackStock,
  contents: readonly Content[],
  groups: readonly StepGroup[],
): Map<StepGroup, Option> | null {
  const offered = groups.map((group) => {
    return {
      group,
      options: optionsFrom(
        stock,
        group,
        supplyOf(contents, (bag) => drawsFrom(bag, group.role)),
      ),
    };
  });
  const roles = [...new Set(groups.map(({ role }) => role))];
  const own = new Map(roles.map((role) => [role, supplyOf(contents, (bag) => bag.role === role)]));
  const shared = supplyOf(contents, (bag) => bag.role === null);
  const taken = new Map<StepGroup, Option>();
  const goTogether = (): boolean => {
    const drawn = new Map<string, number>();
    for (const role of roles) {
      const needs = mostOf([...taken].filter(([group]) => group.role === role).map(([, { counts }]) => counts));
      for (const [id, draw] of draws(needs, own.get(role) ?? new Map())) drawn.set(id, (drawn.get(id) ?? 0) + draw);
    }
    return [...drawn].every(([id, draw]) => draw <= (shared.get(id) ?? 0));
  };
  const choose = (index: number): boolean => {
    const next = offered[index];
    if (!next) return true;
    for (const option of next.options) {
      taken.set(next.group, option);
      if (goTogether() && choose(index + 1)) return true;
    }
    taken.delete(next.group);
    return false;
  };
  return choose(0) ? taken : null;
}

/** What a role draws from nobody's bags: its own serve it first. */
function draws(needs: Counts, own: Counts): [string, number][] {
  return [...needs].map(([id, need]) => [id, Math.max(0, need - (own.get(id) ?? 0))]);
}
