import type { ResolvedPlan } from '../../plan/resolved.ts';
import { mostAsked } from '../model/bagModel.ts';
import type { Costs } from '../model/costs.ts';
import type { StepGroup } from '../outingWork.ts';
import type { ReducedWork } from '../presolve/reduceWork.ts';
import type { CoverTable, TableChain, TableFlow, TableGroup } from './coverTable.ts';
import { tableGroup } from './coverTable.ts';

/** The outing in numbers, for the local search. */
export interface Covering {
  table: CoverTable;
  /** Whatever must be served, those with the fewest stacks first. */
  groups: TableGroup[];
  /** The same with all its chains, for what has to be exact. */
  groupsWhole: TableGroup[];
  /** Whatever must be served after the loss of a piece too. */
  standing: TableGroup[];
  /** With all its chains, whatever must be served after any loss. */
  standingWhole: TableGroup[];
  kept: Int32Array;
  slots: boolean;
}

/** What has to be served of an outing, in numbers. */
export function covering(plan: ResolvedPlan, reduced: ReducedWork, costs: Costs): Covering {
  const asked = mostAsked(reduced);
  const items = [...plan.carried.values()].filter(
    ({ id, kind }) => kind !== 'gear' && asked.has(id) && !reduced.dropped.has(id),
  );
  const number = new Map(items.map(({ id }, index) => [id, index]));
  const kept = (id: string): number => reduced.work.keep.get(id) ?? 0;
  const table: CoverTable = {
    ids: items.map(({ id }) => id),
    number,
    // What costs nothing is still not packed by itself.
    cost: Float64Array.from(items, (item) => Math.max(costs.ofItem(item), 1e-9)),
    most: Int32Array.from(items, ({ id, onHand }) => Math.min(onHand, Math.max(asked.get(id) ?? 0, kept(id)))),
  };
  const inNumbers = (list: readonly StepGroup[]): TableGroup[] =>
    list.map((group) => tableGroup(table, group)).toSorted((a, b) => size(a) - size(b));
  const { tolerance } = reduced.work;
  const standing = tolerance === 'nothing' ? [] : inNumbers(reduced.standing);
  const groups = inNumbers(reduced.groups);
  return {
    table,
    groups: groups.map((group) => withFewChains(group, table)),
    groupsWhole: groups,
    standing: tolerance === 'piece' ? standing.map((group) => withFewChains(group, table)) : [],
    standingWhole: standing,
    kept: Int32Array.from(items, ({ id }) => kept(id)),
    slots: reduced.groups.some(({ slot }) => slot !== null),
  };
}

function size({ main }: TableGroup): number {
  return main.ladders.reduce((sum, { rungs, chains }) => sum + rungs.flat().length * chains.length, 0);
}

/** The same search at other prices: it looks at the chains that are light by them. */
export function atPrices(cover: Covering, cost: Float64Array): Covering {
  const table = { ...cover.table, cost };
  return {
    ...cover,
    table,
    groups: cover.groupsWhole.map((group) => withFewChains(group, table)),
    standing: cover.standing.length === 0 ? [] : cover.standingWhole.map((group) => withFewChains(group, table)),
  };
}

/** A local search that looks at the lightest chains of each rung and joint is much quicker, and little worse. */
const chainsLooked = 24;

function withFewChains({ group, main, hold }: TableGroup, { cost }: CoverTable): TableGroup {
  const massOf = ({ links }: TableChain): number =>
    links.reduce((sum, { pieces, times }) => sum + times * Math.min(...pieces.map((piece) => cost[piece] ?? 0)), 0);
  const few = (flow: TableFlow): TableFlow => ({
    ...flow,
    ladders: flow.ladders.map(({ rungs, chains }) => {
      const seen = new Map<string, number>();
      const light = chains
        .toSorted((a, b) => massOf(a) - massOf(b))
        .filter(({ from, joint }) => {
          const key = `${from} ${joint}`;
          const before = seen.get(key) ?? 0;
          seen.set(key, before + 1);
          return before < chainsLooked;
        });
      return { rungs, chains: light };
    }),
  });
  return { group, main: few(main), hold: hold && few(hold) };
}
